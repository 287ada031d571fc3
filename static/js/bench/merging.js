// What both changed, side by side: one is chosen for each, then all stands together.
import { clock } from "./clock.js";
import { make } from "./panels.js";

export class Merging {
  constructor(panel, words, nameOf, take) {
    Object.assign(this, { panel, words, nameOf, take });
    this.list = panel.querySelector("[data-sides]");
    panel.querySelector("form").addEventListener("submit", (event) => this.#done(event));
  }

  show(told) {
    this.told = told;
    this.panel.querySelector("[data-who]").textContent = this.words("both-changed", { who: told.who });
    const open = told.parts.filter((part) => part.from === "choose");
    this.list.replaceChildren(...open.map((part, at) => this.#choice(part, at)));
  }

  #choice(part, at) {
    const first = part.lines[0] ?? part.theirs[0];
    const sides = [["mine", this.words("mine"), part.lines], ["theirs", this.told.who, part.theirs]];
    return make(
      "fieldset",
      {},
      make("legend", {}, clock(first[0])),
      ...sides.map(([value, name, rows]) => this.#side(`part-${at}`, value, name, rows)),
    );
  }

  #side(group, value, name, rows) {
    const box = make("input", { type: "radio", name: group, value, required: "" });
    const lines = rows.map((row) => make("span", { class: "side-line" }, this.#line(row)));
    if (!lines.length) lines.push(make("em", {}, this.words("line-gone")));
    return make("label", { class: "side" }, box, make("strong", {}, name), ...lines);
  }

  #line([start, end, speaker, label, text]) {
    return `${clock(start)}–${clock(end)} ${this.nameOf({ speaker, label })}: ${text}`;
  }

  #done(event) {
    event.preventDefault();
    const chosen = new FormData(event.target);
    let at = 0;
    const rows = this.told.parts.flatMap((part) => {
      if (part.from !== "choose") return part.lines;
      return chosen.get(`part-${at++}`) === "theirs" ? part.theirs : part.lines;
    });
    this.take(this.told, inOrder(rows));
  }
}

// Two people may have moved boundaries so that one line now starts before the one above it.
const inOrder = (rows) => rows.toSorted((one, other) => one[0] - other[0]);
