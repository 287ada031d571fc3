// <telling-words data-pace data-look>: while a script is written, its minutes stand beside it, and after a pause its
// sentences are held against the evidence. Words are counted as the server counts them.
const PAUSE_MS = 700;

class TellingWords extends HTMLElement {
  connectedCallback() {
    this.form = this.querySelector("form");
    this.script = this.querySelector("[name=script]");
    this.minutes = this.querySelector("[data-minutes]");
    this.looked = this.querySelector("[data-looked]");
    this.said = this.querySelector("[data-said]");
    for (const plain of this.querySelectorAll("[data-plain]")) plain.hidden = true;
    this.form.addEventListener("input", (event) => this.#typed(event));
    this.form.addEventListener("change", (event) => this.#chosen(event));
    this.form.addEventListener("keydown", (event) => this.#enter(event));
    this.form.addEventListener("restored", () => this.#afresh());
  }

  disconnectedCallback() {
    clearTimeout(this.pause);
  }

  #typed(event) {
    if (event.target === this.script) this.#afresh();
  }

  #chosen(event) {
    if (["statements", "kind", "object", "demonstration"].includes(event.target.name)) this.#soon();
  }

  /** Enter in a field of one line looks the words over, and sends nothing. */
  #enter(event) {
    if (event.key !== "Enter" || event.target.tagName !== "INPUT" || event.target.type === "submit") return;
    event.preventDefault();
    this.#look();
  }

  #afresh() {
    const words = this.script.value.split(/\s+/).filter(Boolean).length;
    const tenths = Math.floor((words / Number(this.dataset.pace)) * 10 + 0.5);
    const minutes = words ? Math.max(0.1, tenths / 10) : 0;
    const { one, many } = this.minutes.dataset;
    this.minutes.textContent = (words === 1 ? one : many).replace("{words}", words).replace("{minutes}", minutes.toFixed(1));
    this.#soon();
  }

  #soon() {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.#look(), PAUSE_MS);
  }

  async #look() {
    clearTimeout(this.pause);
    const asked = (this.asked = Symbol("asked"));
    const body = new URLSearchParams(new FormData(this.form));
    let answer;
    try {
      answer = await fetch(this.dataset.look, { method: "POST", body });
    } catch {
      return; // Out of reach: the words stay, and the next pause asks again.
    }
    if (!answer.ok || asked !== this.asked) return;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    this.looked.replaceChildren(...page.body.childNodes);
    const sum = this.looked.querySelector(".looked-sum strong");
    this.said.textContent = sum ? sum.textContent : "";
    this.dispatchEvent(new CustomEvent("looked", { bubbles: true }));
  }
}

customElements.define("telling-words", TellingWords);
