// Times as the form writes them, 0:01:02.500; and the keys that move one.
import { read } from "../bench/clock.js";

const STEPS = { ArrowUp: 10, ArrowDown: -10, PageUp: 1000, PageDown: -1000 };

export function written(ms) {
  const seconds = Math.floor(ms / 1000);
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const two = (number) => String(number).padStart(2, "0");
  return `${hours}:${two(minutes)}:${two(seconds % 60)}.${String(ms % 1000).padStart(3, "0")}`;
}

export { read };

/** Let the arrows move the time in a field: by 10 ms, with Shift by 100 ms, by whole pages of a second. */
export function nudged(field, longest) {
  field.addEventListener("keydown", (event) => {
    const step = STEPS[event.key];
    if (!step || event.altKey || event.ctrlKey || event.metaKey) return;
    const now = read(field.value);
    if (now === null) return;
    event.preventDefault();
    const far = event.shiftKey && event.key.startsWith("Arrow") ? step * 10 : step;
    put(field, Math.min(Math.max(0, now + far), longest));
  });
}

/** Write a time into a field as if it had been typed. */
export function put(field, ms) {
  field.value = written(Math.round(ms));
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
