// Times as people read and write them: 1:02:03, 0:07.35.
export function clock(ms) {
  const seconds = Math.floor(ms / 1000);
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const rest = String(seconds % 60).padStart(2, "0");
  return hours ? `${hours}:${String(minutes).padStart(2, "0")}:${rest}` : `${minutes}:${rest}`;
}

export function exact(ms) {
  return `${clock(ms)}.${String(Math.floor((ms % 1000) / 10)).padStart(2, "0")}`;
}

export const whole = (ms) => `${clock(ms)}.${String(ms % 1000).padStart(3, "0")}`;

/** Milliseconds of a time as it is written, or null. */
export function read(text) {
  const match = /^(?:(\d{1,3}):)?(\d{1,3}):([0-5]\d)(?:[.,](\d{1,3}))?$/.exec(text.trim());
  if (!match) return null;
  const [, hours = "0", minutes, seconds, part = "0"] = match;
  return ((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000 + Number(part.padEnd(3, "0"));
}
