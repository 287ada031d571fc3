// Find and replace: every line that would change is shown first, and each can be left out.
import { write } from "./deeds.js";
import { Refused } from "./asking.js";
import { clock } from "./clock.js";
import { inPieces, make } from "./panels.js";

export class Replacing {
  constructor(panel, transcript, asking, address, words, done) {
    Object.assign(this, { panel, transcript, asking, address, words, done });
    [this.form, this.list, this.told] = ["form", "[data-found]", "[data-told]"].map((each) => panel.querySelector(each));
    this.put = panel.querySelector("[data-put]");
    this.form.addEventListener("submit", (event) => this.#look(event));
    this.put.addEventListener("click", () => this.#replace());
  }

  async #look(event) {
    event.preventDefault();
    const { find, put, exact, whole } = this.form.elements;
    const marks = event.submitter?.value === "marks";
    this.texts = this.transcript.lines.map((line) => line.text);
    const asked = marks ? { marks } : { find: find.value, put: put.value, case: exact.checked, whole: whole.checked };
    try {
      this.found = await this.asking.post(this.address, { ...asked, texts: this.texts });
    } catch (problem) {
      if (!(problem instanceof Refused)) throw problem;
      this.found = [];
      this.told.textContent = problem.message;
      return this.#show();
    }
    this.told.textContent = this.words(this.found.length ? "found" : "found-none", { count: this.found.length });
    this.#show();
  }

  #show() {
    this.list.replaceChildren(...this.found.map((each, at) => this.#row(each, at)));
    this.put.hidden = !this.found.length;
    if (this.found.length) this.put.focus();
  }

  #row({ at, pieces }, number) {
    const box = make("input", { type: "checkbox", value: number });
    box.checked = true;
    const time = make("span", { class: "figure quiet" }, clock(this.transcript.lines[at].start));
    return make("li", {}, make("label", {}, box, time, " ", make("span", {}, ...inPieces(pieces))));
  }

  #replace() {
    const chosen = [...this.list.querySelectorAll("input:checked")].map((box) => this.found[Number(box.value)]);
    let count = 0;
    this.transcript.together(() => {
      for (const { at, text } of chosen) {
        // A line that was written in since is left alone.
        if (this.transcript.lines[at]?.text !== this.texts[at]) continue;
        write(this.transcript, at, text);
        count++;
      }
    });
    this.found = [];
    this.#show();
    this.told.textContent = "";
    this.done(count);
  }
}
