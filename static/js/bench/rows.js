// The lines on the page. All stand there, but the browser lays out only those near; the chosen one can be written in.
import { RowWriter } from "./row.js";
import { Speakers } from "./speakers.js";

const FIRST = 60;
const MORE = 250;

export class Rows extends EventTarget {
  constructor(list, transcript, known, words) {
    super();
    Object.assign(this, { list, transcript });
    this.rows = new Map();
    this.speakers = new Speakers(known, words);
    this.writer = new RowWriter(known, transcript, this.speakers, words);
    transcript.addEventListener("begun", () => this.#begin());
    transcript.addEventListener("changed", (event) => this.#change(event.detail));
    list.addEventListener("click", (event) => this.#click(event));
    list.addEventListener("input", (event) => this.#input(event));
    list.addEventListener("change", (event) => this.speakers.chosen(event, (who) => this.#tell("speak", who)));
  }

  get at() {
    return this.transcript.at(this.chosen);
  }

  get box() {
    return this.rows.get(this.chosen)?.querySelector("textarea");
  }

  /** Choose a line, and write in it from a letter on. */
  choose(id, { letter = null, focus = true } = {}) {
    if (!this.rows.has(id)) this.#buildAll();
    const old = this.chosen;
    this.chosen = id;
    if (old !== id || !this.box) for (const each of [old, id]) this.fill(each);
    if (focus) this.box.focus({ preventScroll: true });
    if (letter !== null) this.box.setSelectionRange(letter, letter);
    this.rows.get(id).scrollIntoView({ block: "nearest" });
    this.#tell("chosen", id);
  }

  /** Mark the line that is heard. */
  hear(id) {
    if (this.heard === id) return;
    this.rows.get(this.heard)?.classList.remove("mend--heard");
    this.rows.get(id)?.classList.add("mend--heard");
    this.heard = id;
  }

  fillAll() {
    for (const line of this.transcript.lines) this.#write(line);
  }

  /** Write a row anew from its line. */
  fill(id) {
    const line = this.transcript.lines[this.transcript.at(id)];
    if (line) this.#write(line);
  }

  #write(line) {
    const row = this.rows.get(line.id);
    if (row) this.writer.write(row, line, line.id === this.chosen);
  }

  #begin() {
    const letter = this.box && document.activeElement === this.box ? this.box.selectionStart : null;
    clearTimeout(this.timer);
    this.list.replaceChildren();
    this.rows.clear();
    this.building = this.transcript.lines;
    this.built = 0;
    if (this.at < 0) this.chosen = this.building[0]?.id;
    this.#build(FIRST);
    performance.mark("lines-stand");
    if (letter === null) this.#tell("begun");
    else this.choose(this.chosen, { letter });
  }

  /** So many more rows now, and the rest in a moment: the first lines stand on the page at once. */
  #build(count) {
    const lines = this.building.slice(this.built, this.built + count);
    this.built += lines.length;
    this.list.append(...lines.map((line) => this.#row(line)));
    for (const line of lines) this.#write(line);
    this.list.dataset.lines = this.rows.size;
    if (this.built < this.building.length) this.timer = setTimeout(() => this.#build(MORE));
  }

  #buildAll() {
    clearTimeout(this.timer);
    if (this.built < this.building.length) this.#build(this.building.length);
  }

  #row(line) {
    const row = this.writer.make(line);
    this.rows.set(line.id, row);
    return row;
  }

  #change({ at, old, put }) {
    this.#buildAll();
    const stays = new Set(put.map((line) => line.id));
    for (const { id } of old.filter((line) => !stays.has(line.id))) {
      this.rows.get(id)?.remove();
      this.rows.delete(id);
    }
    const { lines } = this.transcript;
    let before = at ? this.rows.get(lines[at - 1].id) : null;
    for (const line of put) {
      const row = this.rows.get(line.id) ?? this.#row(line);
      const place = before ? before.nextSibling : this.list.firstChild;
      if (place !== row) this.list.insertBefore(row, place);
      this.#write(line);
      before = row;
    }
    this.list.dataset.lines = this.rows.size;
    if (!this.rows.has(this.chosen) && lines.length) this.choose((put[0] ?? lines[Math.min(at, lines.length - 1)]).id);
  }

  #click(event) {
    const row = event.target.closest("[data-id]");
    if (!row) return;
    const id = Number(row.dataset.id);
    if (event.target.closest(".mend-time")) this.#tell("play", id);
    if (id !== this.chosen) this.choose(id);
  }

  #input({ target }) {
    if (target.tagName !== "TEXTAREA") return;
    this.writer.fit(target);
    this.#tell("wrote", target.value);
  }

  #tell(kind, detail) {
    this.dispatchEvent(new CustomEvent(kind, { detail }));
  }
}
