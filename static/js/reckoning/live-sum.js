// <live-sum>: the answer follows the fields. It fetches the very page that the form leads to and puts its answer in;
// while one answer is on its way the next is asked for only when that one has come. Without script the form just sends.

const NUMBER = /\d[\d,]*(?:\.\d+)?/;

/** The text with its first number one small step up or down: 1.7 m, 1.8 m; 28,000, 29,000. Never below nothing. */
export function stepped(text, direction, whole) {
  const found = NUMBER.exec(text);
  if (!found) return text;
  const value = Number(found[0].replaceAll(",", ""));
  const decimals = (found[0].split(".")[1] ?? "").length;
  const size = value > 0 ? 10 ** (Math.floor(Math.log10(value) + 1e-9) - 1) : 1;
  const step = whole ? Math.max(1, size) : size;
  const next = Math.max(0, value + direction * step);
  const places = Math.max(decimals, step < 1 ? Math.round(-Math.log10(step)) : 0);
  return text.slice(0, found.index) + next.toFixed(places) + text.slice(found.index + found[0].length);
}

class LiveSum extends HTMLElement {
  connectedCallback() {
    this.form = this.querySelector("form");
    this.form.addEventListener("input", () => this.#ask(false));
    this.form.addEventListener("change", () => this.#ask(true));
    this.form.addEventListener("submit", (event) => this.#submit(event));
    for (const field of this.querySelectorAll("[data-number]")) this.#addSteps(field);
  }

  async #submit(event) {
    event.preventDefault();
    await this.#ask(true);
    const problems = this.querySelector("[data-problems]");
    if (problems.childElementCount) problems.focus();
  }

  /** `finished` when a field has been left or sent: only then are its faults told. */
  async #ask(finished) {
    this.finished ||= finished;
    if (this.asking) {
      this.again = true;
      return this.asking;
    }
    this.asking = this.#untilInStep();
    await this.asking;
    this.asking = null;
    return undefined;
  }

  async #untilInStep() {
    do {
      this.again = false;
      const tell = this.finished;
      this.finished = false;
      await this.#fetch(tell);
    } while (this.again);
  }

  async #fetch(tell) {
    const address = `${this.form.action}?${new URLSearchParams(new FormData(this.form))}`;
    try {
      const answer = await fetch(address);
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const next = page.querySelector("live-sum");
      if (!next) throw new TypeError(answer.statusText);
      this.#take(next, answer.ok, tell);
      if (answer.ok) history.replaceState(null, "", address);
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem;
      this.#line().textContent = this.getAttribute("failed");
    }
  }

  /** An answer is put in at once; faults wait until the field is left, and leave the last answer standing, faded. */
  #take(next, answered, tell) {
    this.toggleAttribute("data-stale", !answered);
    if (answered) this.#put(next, "[data-answer]");
    if (!answered && !tell) return;
    this.#line().textContent = next.querySelector("[data-line]").textContent.trim();
    this.#put(next, "[data-problems]");
    for (const field of this.querySelectorAll("[data-field]")) this.#takeFault(field, next);
  }

  #takeFault(field, next) {
    const same = next.querySelector(`[data-field="${field.dataset.field}"]`);
    field.querySelector("[data-fault]").textContent = same.querySelector("[data-fault]").textContent;
    const wrong = same.querySelector("[aria-invalid]") !== null;
    const input = field.querySelector("[name]");
    if (wrong) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }

  #put(next, part) {
    this.querySelector(part).replaceChildren(...next.querySelector(part).childNodes);
  }

  #line() {
    return this.querySelector("[data-line]");
  }

  /** Two keys beside a number, for a hand without a keyboard. */
  #addSteps(input) {
    const title = input.closest(".field").querySelector("label").firstChild.textContent.trim();
    const make = (sign, direction, words) => {
      const button = document.createElement("button");
      Object.assign(button, { type: "button", className: "button button--quiet field__step", textContent: sign });
      button.setAttribute("aria-label", `${title}: ${words}`);
      button.addEventListener("click", () => this.#step(input, direction));
      return button;
    };
    input.before(make("−", -1, this.getAttribute("less")));
    input.after(make("+", 1, this.getAttribute("more")));
  }

  #step(input, direction) {
    input.value = stepped(input.value || input.placeholder, direction, "whole" in input.dataset);
    this.#ask(true);
  }
}

customElements.define("live-sum", LiveSum);
