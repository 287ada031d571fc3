// Times in addresses: W3C Media Fragments, `#t=12.5` and `#t=12.5,20`, in seconds or as m:ss and h:mm:ss.

const PART = /^(?:(?:(\d+):)?([0-5]?\d):)?(\d+(?:\.\d*)?)$/;

function seconds(text) {
  const match = PART.exec(text);
  if (!match) return null;
  const [, hours = 0, minutes = 0, rest] = match;
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(rest);
}

/** The stretch that a hash names: `{ start, end }` with `end` Infinity when open; null for anything else. */
export function readFragment(hash) {
  const text = new URLSearchParams(hash.replace(/^#/, "")).get("t");
  if (!text) return null;
  const [from, to, more] = text.replace(/^npt:/, "").split(",");
  if (more !== undefined) return null;
  const start = from ? seconds(from) : 0;
  const end = to ? seconds(to) : Infinity;
  if (start === null || end === null || end <= start || (!from && !to)) return null;
  return { start, end };
}

/** Seconds as people read them: 0:07, 12:05, 1:02:03. */
export function clock(time) {
  const whole = Math.max(0, Math.floor(time));
  const parts = [Math.floor(whole / 60) % 60, whole % 60];
  if (whole >= 3600) parts.unshift(Math.floor(whole / 3600));
  return parts.map((part, place) => (place ? String(part).padStart(2, "0") : part)).join(":");
}
