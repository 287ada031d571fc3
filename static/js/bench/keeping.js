// Keeps the lines by itself: a moment after the last change, and again when the line to the server is back.
import { Refused } from "./asking.js";
import { Journal } from "./journal.js";
import { newId } from "./transcript.js";

const QUIET_MS = 1200;
const RETRY_MS = 4000;

export class Keeping extends EventTarget {
  constructor(transcript, asking, addresses, ref) {
    super();
    Object.assign(this, { transcript, asking, addresses });
    this.journal = new Journal(ref);
    this.rowOf = (line) => transcript.rowOf(line);
    transcript.addEventListener("changed", () => this.#changed());
    addEventListener("online", () => this.#soon(0));
  }

  /** Begin from what the server has; then what was left unsent here comes back. */
  async begin(version, lines) {
    [this.version, this.kept] = [version, lines];
    const left = this.journal.read();
    if (!left) return false;
    // Lines that were new on the page that is gone get numbers of this page.
    for (const row of left.mine) if (row[7] < 0) row[7] = -newId();
    if (left.version !== version) {
      await this.#merge(left.base, () => left.mine);
      return true;
    }
    this.transcript.change(0, lines.length, left.mine.map((row) => this.transcript.lineOf(row)));
    return true;
  }

  get unsent() {
    return this.transcript.lines !== this.kept;
  }

  /** Keep now; gives whether everything is kept. */
  async now() {
    clearTimeout(this.timer);
    while (this.sending) await this.sending;
    if (this.unsent && !this.choosing) {
      this.sending = this.#send();
      await this.sending;
      this.sending = null;
    }
    return !this.unsent;
  }

  #changed() {
    this.journal.write(this.version, this.kept, this.transcript.lines, this.rowOf);
    this.#say("unsent");
    this.#soon(QUIET_MS);
  }

  #soon(after) {
    clearTimeout(this.timer);
    if (this.unsent && !this.choosing) this.timer = setTimeout(() => this.now(), after);
  }

  async #send() {
    const sent = this.transcript.lines;
    this.#say("sending");
    try {
      const told = await this.asking.post(this.addresses.lines, { version: this.version, lines: sent.map(this.rowOf) });
      sent.forEach((line, at) => this.transcript.know(line.id, told.keys[at]));
      [this.version, this.kept] = [told.version, sent];
      this.#settle();
    } catch (problem) {
      await this.#failed(problem);
    }
  }

  #settle() {
    this.journal.clear();
    if (this.unsent) return this.#changed();
    this.#say("kept");
  }

  async #failed(problem) {
    if (problem instanceof TypeError) {
      this.#say("offline");
      return this.#soon(RETRY_MS);
    }
    if (!(problem instanceof Refused)) throw problem;
    if (problem.status !== 409) return this.#say(problem.status === 401 ? "signed-out" : "refused", problem.message);
    await this.#merge(this.kept.map(this.rowOf), () => this.transcript.lines.map(this.rowOf));
  }

  /** Somebody else was quicker: bring both together, and ask about what both changed. */
  async #merge(base, mine) {
    const then = this.transcript.lines;
    const told = await this.asking.post(this.addresses.merged, { base, mine: mine() });
    if (this.transcript.lines !== then) return this.#merge(base, mine); // More was written meanwhile.
    this.choosing = told.parts.some((part) => part.from === "choose");
    if (this.choosing) {
      this.#say("choose");
      this.dispatchEvent(new CustomEvent("choose", { detail: told }));
    } else {
      this.takeMerged(told, told.parts.flatMap((part) => part.lines));
    }
  }

  /** Merged rows stand from now on, on top of what the server has. */
  takeMerged(told, rows) {
    this.choosing = false;
    this.version = told.version;
    const lines = rows.map((row) => this.transcript.lineOf(row));
    const places = new Map(lines.map((line) => [JSON.stringify(this.rowOf(line)), line]));
    this.kept = told.theirs.map((row) => places.get(JSON.stringify(row)) ?? this.transcript.lineOf(row));
    const alike = lines.length === this.kept.length && lines.every((line, at) => line === this.kept[at]);
    this.transcript.take(alike ? this.kept : lines);
    this.journal.clear();
    this.dispatchEvent(new CustomEvent("merged", { detail: { who: told.who, parts: told.parts } }));
    if (this.unsent) this.#changed();
    else this.#say("kept");
  }

  #say(state, words = "") {
    this.state = state;
    this.dispatchEvent(new CustomEvent("state", { detail: { state, words } }));
  }
}
