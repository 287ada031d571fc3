// What can be done to a line: each deed is one change of the transcript.
import { newId } from "./transcript.js";

const SHORTEST_MS = 10;
const INAUDIBLE = "[inaudible]";
const UNCLEAR = /\[unclear: ([^[\]]+)\]/g;

const put = (transcript, at, line, changes, options) =>
  transcript.change(at, 1, [Object.freeze({ ...line, ...changes })], options);

/** What a person wrote, a machine is no longer sure or unsure of. */
export function write(transcript, at, text, options) {
  put(transcript, at, transcript.lines[at], { text, confidence: null }, options);
}

/** Cut a line in two at a letter; at the sound's place if that is inside the line, else in proportion. */
export function split(transcript, at, letter, now) {
  const line = transcript.lines[at];
  const inside = now > line.start + SHORTEST_MS && now < line.end - SHORTEST_MS;
  const share = line.start + Math.round(((line.end - line.start) * letter) / Math.max(1, line.text.length));
  const cut = Math.min(Math.max(inside ? now : share, line.start + SHORTEST_MS), line.end - SHORTEST_MS);
  if (cut <= line.start || cut >= line.end) return null;
  const first = Object.freeze({ ...line, end: cut, text: line.text.slice(0, letter).trim() });
  const second = Object.freeze({ ...line, id: newId(), start: cut, text: line.text.slice(letter).trim() });
  transcript.change(at, 1, [first, second]);
  return second.id;
}

/** Join a line with the next; gives the letter at which they meet. */
export function join(transcript, at) {
  const [line, next] = transcript.lines.slice(at, at + 2);
  if (!next) return null;
  const text = [line.text.trim(), next.text.trim()].filter(Boolean).join(" ");
  const doubtful = line.doubtful || next.doubtful;
  transcript.change(at, 2, [Object.freeze({ ...line, end: Math.max(line.end, next.end), text, doubtful })]);
  return line.text.trim().length;
}

/** Move a line's start or end. Where it meets its neighbour, both move: it is one boundary. */
export function nudge(transcript, at, edge, by) {
  const line = transcript.lines[at];
  moveTo(transcript, at, edge, line[edge] + by);
}

export function moveTo(transcript, at, edge, to) {
  const first = edge === "start" ? at - 1 : at;
  const [before, after] = [transcript.lines[first], transcript.lines[first + 1]];
  const shared = before && after && before.end === after.start;
  const line = transcript.lines[at];
  if (edge === "start") {
    const least = Math.max(0, before ? before.start + (shared ? SHORTEST_MS : 0) : 0);
    const start = Math.min(Math.max(to, least), line.end - SHORTEST_MS);
    if (!shared) return put(transcript, at, line, { start });
    return pair(transcript, first, { end: start }, { start });
  }
  const most = shared ? after.end - SHORTEST_MS : transcript.duration;
  const end = Math.max(Math.min(to, most), line.start + SHORTEST_MS);
  if (!shared) return put(transcript, at, line, { end });
  return pair(transcript, first, { end }, { start: end });
}

function pair(transcript, first, before, after) {
  const [one, other] = transcript.lines.slice(first, first + 2);
  transcript.change(first, 2, [Object.freeze({ ...one, ...before }), Object.freeze({ ...other, ...after })]);
}

export function speak(transcript, at, speaker, label) {
  put(transcript, at, transcript.lines[at], { speaker, label });
}

export function doubt(transcript, at, doubtful) {
  put(transcript, at, transcript.lines[at], { doubtful, ...(doubtful ? {} : { confidence: null }) });
}

export function remove(transcript, at) {
  if (transcript.lines.length > 1) transcript.change(at, 1, []);
}

/** Mark the chosen words unclear, or take the mark off them; gives where the cursor stands then. */
export function unclear(transcript, at, from, to) {
  const { text } = transcript.lines[at];
  for (const match of text.matchAll(UNCLEAR)) {
    if (match.index <= from && to <= match.index + match[0].length) {
      write(transcript, at, text.slice(0, match.index) + match[1] + text.slice(match.index + match[0].length));
      return match.index + match[1].length;
    }
  }
  const chosen = text.slice(from, to);
  const words = chosen.trim().replaceAll(/[[\]]/g, "");
  if (!words) return null;
  const start = from + chosen.length - chosen.trimStart().length;
  const end = to - (chosen.length - chosen.trimEnd().length);
  const mark = `[unclear: ${words}]`;
  write(transcript, at, text.slice(0, start) + mark + text.slice(end));
  return start + mark.length;
}

export function inaudible(transcript, at, letter) {
  const { text } = transcript.lines[at];
  const before = [text.slice(0, letter).trimEnd(), INAUDIBLE].filter(Boolean).join(" ");
  write(transcript, at, [before, text.slice(letter).trimStart()].filter(Boolean).join(" "));
  return before.length;
}

/** The next doubtful line in a direction, going round at the ends; -1 when there is none. */
export function nextDoubtful(lines, at, step) {
  for (let n = 1; n <= lines.length; n++) {
    const place = (at + step * n + lines.length * (n + 1)) % lines.length;
    if (lines[place].doubtful) return place;
  }
  return -1;
}
