// What the chosen line speaks of: what it is tied to, and what its words suggest.
import { make } from "./panels.js";

const PAUSE_MS = 500;

export class Ties extends EventTarget {
  constructor(panel, transcript, keeping, asking, addresses, known, words) {
    super();
    Object.assign(this, { transcript, keeping, asking, addresses, known, words });
    [this.there, this.offered] = ["[data-tied]", "[data-suggested]"].map((each) => panel.querySelector(each));
    this.there.addEventListener("click", (event) => this.#press(event, true));
    this.offered.addEventListener("click", (event) => this.#press(event, false));
  }

  /** Show a line's ties now, and its suggestions after a pause. */
  show(line) {
    this.line = line;
    this.#fill(this.there, this.#ties(), "untie", "tied-to-none");
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.#suggest(line), PAUSE_MS);
  }

  /** Tie to the first suggestion. */
  first() {
    const button = this.offered.querySelector("button");
    if (button) button.click();
    return Boolean(button);
  }

  #ties() {
    return this.known.ties.get(this.transcript.segments.get(this.line.id)) ?? [];
  }

  async #suggest(line) {
    const tied = this.#ties().filter((tie) => tie.state === "accepted").map((tie) => [tie.kind, tie.ref]);
    const found = await this.asking.post(this.addresses.suggestions, { text: line.text, tied });
    if (this.line.id !== line.id) return;
    this.#fill(this.offered, found, "tie", "suggested-none");
    this.offered.dataset.line = line.id;
  }

  #fill(list, rows, deed, none) {
    const empty = make("li", { class: "quiet" }, this.words(none));
    list.replaceChildren(...(rows.length ? rows.map((row) => this.#row(row, deed)) : [empty]));
  }

  #row({ kind, ref, name, state, said }, deed) {
    const more = state === "proposed" ? ` (${this.words("proposed")})` : "";
    // A period was tied by its dates when the interview was brought; the bench knows records alone.
    const mark = make("span", { class: "mark" }, this.words(`kind-${kind}`));
    if (kind === "period") return make("li", {}, mark, ` ${name}`);
    const button = make("button", { type: "button", class: "button button--quiet button--small" }, this.words(deed));
    button.append(make("span", { class: "unseen" }, `: ${name}`));
    Object.assign(button.dataset, { kind, ref, name });
    const heard = said && said.toLowerCase() !== name.toLowerCase() ? make("span", { class: "quiet" }, ` “${said}”`) : null;
    return make("li", {}, button, make("span", {}, mark, ` ${name}${more}`, heard));
  }

  async #press({ target }, untie) {
    const button = target.closest("button");
    if (!button) return;
    const { kind, ref, name } = button.dataset;
    const { id } = this.line;
    await this.#send(id, kind, ref, untie);
    this.transcript.noteDeed(() => this.#send(id, kind, ref, !untie), () => this.#send(id, kind, ref, untie));
    this.dispatchEvent(new CustomEvent("told", { detail: this.words(untie ? "untied" : "tied-now", { name }) }));
  }

  /** A line must be kept before it can be tied. */
  async #send(id, kind, ref, untie) {
    if (!this.transcript.segments.has(id)) await this.keeping.now();
    const line = this.transcript.segments.get(id);
    if (line === undefined) return;
    this.known.ties.set(line, await this.asking.post(this.addresses.ties, { line, kind, ref, untie }));
    this.dispatchEvent(new CustomEvent("changed", { detail: id }));
  }
}
