// Words and figures as the giving page shows them. Pure.

/** A sentence with its {places} filled in. */
export function filled(sentence, values) {
  return sentence.replace(/\{(\w+)\}/g, (place, name) => String(values[name] ?? place));
}

/** Minutes as people read them: 4½, 12, ¼. */
export function minutesRead(minutes) {
  const quarters = Math.round(Math.abs(minutes) * 4);
  const whole = Math.floor(quarters / 4);
  const part = ["", "¼", "½", "¾"][quarters % 4];
  return `${whole || (part ? "" : 0)}${part}`;
}

/** The time of a moment (milliseconds) on a clock on the wall: 10:42. */
export function clockOf(moment) {
  const time = new Date(moment);
  return `${time.getHours()}:${String(time.getMinutes()).padStart(2, "0")}`;
}

/** A day as people read it, in the page's language: 3 May 2031. */
export function dayRead(iso, language) {
  const [year, month, day] = iso.split("-").map(Number);
  const shown = { day: "numeric", month: "long", year: "numeric" };
  return new Date(year, month - 1, day).toLocaleDateString(language, shown);
}

/** The device's own day, as 2026-05-03. */
export function today(now = new Date()) {
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}
