// The form for questions, notes and incidents, and the list of what has been written down on this outing.
import { clockOf } from "./wording.js";
import { counting } from "./progress.js";

const KINDS = ["question", "note", "incident"];

export class LogForm {
  constructor(giving) {
    this.giving = giving;
    this.form = giving.part("log");
    this.list = giving.part("written");
    this.form.addEventListener("submit", (event) => this.#submit(event));
  }

  async #submit(event) {
    event.preventDefault();
    const { kind, text } = this.form.elements;
    const said = text.value.trim();
    if (!said) return;
    await this.giving.write(kind.value, { text: said });
    text.value = "";
    this.giving.part("said").textContent = this.giving.words.written;
  }

  show(lines, shown) {
    this.form.hidden = !shown;
    const told = counting(lines).filter((line) => KINDS.includes(line.kind));
    if (told.length === this.list.children.length) return;
    this.list.replaceChildren(...told.map((line) => this.#line(line)));
  }

  #line(line) {
    const item = document.createElement("li");
    item.textContent = `${clockOf(line.moment)} ${this.giving.words[line.kind]}: ${line.text}`;
    if (line.kind === "incident") item.className = "mark--hazard";
    return item;
  }
}
