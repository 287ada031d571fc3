// Closing a passage, with its reason and the day on which it is looked at again; and opening it.
import { Refused } from "./asking.js";
import { clock, read, whole } from "./clock.js";
import { make } from "./panels.js";

export class Closing {
  constructor(panel, asking, address, known, words, changed) {
    Object.assign(this, { panel, asking, address, known, words, changed });
    this.form = panel.querySelector("form");
    this.list = panel.querySelector("[data-closures]");
    this.told = panel.querySelector("[data-told]");
    this.form.addEventListener("submit", (event) => this.#close(event));
    this.list.addEventListener("click", ({ target }) => target.closest("button") && this.#lift(target.closest("button")));
  }

  /** Offer the stretch of a line. */
  show(line) {
    const { start, end } = this.form.elements;
    [start.value, end.value] = [whole(line.start), whole(line.end)];
    this.told.textContent = "";
    this.#fill();
  }

  #fill() {
    const rows = this.known.closures.map((each) => {
      const button = make("button", { type: "button", class: "button button--quiet button--small", value: each.key }, this.words("lift"));
      button.append(make("span", { class: "unseen" }, `: ${clock(each.start)}`));
      const when = make("span", { class: "figure" }, `${clock(each.start)}–${clock(each.end)}`);
      return make("li", {}, button, make("span", {}, when, ` ${each.reason}`, make("span", { class: "quiet" }, ` ${each.review}`)));
    });
    this.list.replaceChildren(...(rows.length ? rows : [make("li", { class: "quiet" }, this.words("closed-none"))]));
  }

  #close(event) {
    event.preventDefault();
    const { start, end, reason, review } = this.form.elements;
    const [from, to] = [read(start.value), read(end.value)];
    if (from === null || to === null) {
      this.told.textContent = this.words("no-time");
      return (from === null ? start : end).focus();
    }
    return this.#send({ start: from, end: to, reason: reason.value, review: review.value }, "closed-now");
  }

  #lift(button) {
    return this.#send({ lift: Number(button.value) }, "lifted");
  }

  async #send(asked, says) {
    try {
      this.known.closures = await this.asking.post(this.address, asked);
    } catch (problem) {
      if (!(problem instanceof Refused)) throw problem;
      this.told.textContent = problem.message;
      return;
    }
    this.#fill();
    this.form.elements.reason.value = "";
    this.changed(this.words(says));
  }
}
