// The form before the start: who runs the machine, and each check, large enough for a gloved finger.
import { filled, make } from "./parts.js";

export class ChecksForm {
  constructor(facts, operators, start) {
    this.facts = facts;
    this.state = make("p", { class: "run-left", role: "status" });
    this.button = make("button", { class: "button run-start", type: "submit" }, facts.words.start);
    this.said = make("div", { role: "alert" });
    this.node = make(
      "form",
      { class: "run-checks", novalidate: true, on: { submit: (event) => this.submit(event, start), change: () => this.tell() } },
      make("fieldset", {}, make("legend", {}, facts.words.operator), ...operators.map((row) => this.operator(row, operators))),
      make("fieldset", {}, make("legend", {}, facts.words.confirm), ...facts.checks.map((row) => this.check(row))),
      this.said,
      make("div", { class: "run-go" }, this.state, this.button),
    );
    this.tell();
  }

  operator({ ref, name }, operators) {
    const input = make("input", { type: "radio", name: "operator", value: ref });
    input.checked = operators.length === 1;
    return make("label", { class: "run-check" }, input, make("strong", {}, name));
  }

  check({ key, words, why }) {
    const input = make("input", { type: "checkbox", name: "check", value: words, "aria-describedby": `why-${key}` });
    const told = make("span", {}, make("strong", {}, words));
    return make("div", { class: "run-item" }, make("label", { class: "run-check" }, input, told), make("p", { id: `why-${key}` }, why));
  }

  get chosen() {
    return this.node.querySelector("[name=operator]:checked")?.value ?? "";
  }

  get confirmed() {
    return Array.from(this.node.querySelectorAll("[name=check]:checked"), (input) => input.value);
  }

  get lacking() {
    return this.node.querySelector(this.chosen ? "[name=check]:not(:checked)" : "[name=operator]");
  }

  tell() {
    const { words, checks } = this.facts;
    const left = checks.length - this.confirmed.length;
    const ready = this.chosen && left === 0;
    this.button.setAttribute("aria-disabled", String(!ready));
    if (ready) this.state.textContent = words.ready;
    else this.state.textContent = this.chosen ? filled(words.left, { count: left }) : words.choose;
  }

  // Not ready: the first thing that is lacking gets the focus, so that the way on is plain.
  submit(event, start) {
    event.preventDefault();
    const lacking = this.lacking;
    if (lacking) lacking.focus();
    else start(this.chosen, this.confirmed);
  }

  refuse(...words) {
    this.said.replaceChildren(...words);
    this.tell();
  }

  wait() {
    this.state.textContent = this.facts.words.starting;
  }
}
