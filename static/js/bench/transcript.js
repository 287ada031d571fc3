// The lines of a transcript, and every change to them: undone and done again without limit.
// A line is never changed in place: a change puts new lines for old ones. It is known by its `id` on this page.
const ONE_TYPING_MS = 900;
const SAID = ["start", "end", "speaker", "label", "text", "confidence", "doubtful"];

let last = 0;

export const newId = () => ++last;
export const same = (one, other) => one === other || (one.id === other.id && SAID.every((name) => one[name] === other[name]));

export class Transcript extends EventTarget {
  constructor() {
    super();
    this.lines = [];
    this.segments = new Map(); // id -> the segment's key, once it is kept
    this.ids = new Map(); // and back
    this.done = [];
    this.undone = [];
  }

  /** Begin with what the server sent, each row [start, end, speaker, label, text, confidence, doubtful, key]. */
  begin(rows) {
    this.lines = rows.map((row) => this.lineOf(row));
    this.dispatchEvent(new Event("begun"));
  }

  /** The line of a row. A key below nought is a line of this page that was not kept yet. */
  lineOf(row) {
    const key = row[7];
    const id = (key < 0 ? -key : this.ids.get(key)) ?? newId();
    if (key > 0) this.know(id, key);
    return Object.freeze({ id, ...Object.fromEntries(SAID.map((name, at) => [name, row[at]])) });
  }

  /** A line's segment, as the server has it. */
  know(id, key) {
    this.segments.set(id, key);
    this.ids.set(key, id);
  }

  rowOf(line) {
    return [...SAID.map((name) => line[name]), this.segments.get(line.id) ?? -line.id];
  }

  at(id) {
    return this.lines.findIndex((line) => line.id === id);
  }

  /** Put new lines in the place of so many old ones. `typing` joins it to what was typed a moment ago. */
  change(at, count, put, { typing = false } = {}) {
    const before = this.lines.slice(at, at + count);
    if (before.length === put.length && before.every((line, n) => same(line, put[n]))) return;
    const step = this.done.at(-1);
    const joins = typing && step?.typing === before[0].id && Date.now() - step.when < ONE_TYPING_MS && !this.undone.length;
    if (joins) {
      step.splices[0].after = put;
      step.when = Date.now();
    } else if (this.gathered) {
      this.gathered.push({ before, after: put, follows: this.lines[at - 1]?.id });
    } else {
      this.#note({ splices: [{ before, after: put, follows: this.lines[at - 1]?.id }], when: Date.now(), typing: typing && before[0].id });
    }
    this.#put(at, count, put);
  }

  /** All changes that a function makes, undone as one. */
  together(make) {
    this.gathered = [];
    make();
    const splices = this.gathered;
    this.gathered = null;
    if (splices.length) this.#note({ splices });
  }

  /** A deed that is undone in a way of its own, such as a tie. */
  noteDeed(undo, redo) {
    this.#note({ splices: [], undo, redo });
  }

  /** Lines that somebody else changed: not mine to undo. What I did stays undoable as far as it still stands. */
  take(lines) {
    this.lines = lines;
    this.dispatchEvent(new Event("begun"));
  }

  undo() {
    return this.#step(this.done, this.undone, (splice) => [splice.after, splice.before], "undo");
  }

  redo() {
    return this.#step(this.undone, this.done, (splice) => [splice.before, splice.after], "redo");
  }

  /** Gives "none", "done", or "changed" where somebody else has changed those lines since. */
  #step(from, to, ends, deed) {
    const step = from.pop();
    if (!step) return "none";
    const splices = deed === "undo" ? [...step.splices].reverse() : step.splices;
    if (!this.#fit(splices, ends)) return "changed";
    step[deed]?.();
    to.push({ ...step, typing: false });
    return "done";
  }

  #fit(splices, ends) {
    const kept = this.lines;
    const made = [];
    for (const splice of splices) {
      const [old, put] = ends(splice);
      const at = old.length ? this.at(old[0].id) : this.at(splice.follows) + 1;
      const fits = at >= 0 && old.every((line, n) => this.lines[at + n] && same(this.lines[at + n], line));
      if (!fits) {
        this.lines = kept;
        return false;
      }
      this.lines = this.lines.toSpliced(at, old.length, ...put);
      made.push({ at, old, put });
    }
    for (const { at, old, put } of made) this.#tell(at, old, put);
    return true;
  }

  #note(step) {
    this.done.push(step);
    this.undone = [];
  }

  #put(at, count, put) {
    const old = this.lines.slice(at, at + count);
    this.lines = this.lines.toSpliced(at, count, ...put);
    this.#tell(at, old, put);
  }

  #tell(at, old, put) {
    this.dispatchEvent(new CustomEvent("changed", { detail: { at, old, put } }));
  }
}
