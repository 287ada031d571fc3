// <kept-words data-key>: what is typed and not sent yet is kept in the browser's own storage, and offered again.
// <kept-words data-forget>: a telling was kept, so what was typed for it is let go.
const PREFIX = "lemel.telling/";
const LAST = "lemel.telling.sent";
const SKIPPED = new Set(["csrf_token", "stamp", "find", "deed"]);

const store = {
  read: (key) => {
    try {
      return JSON.parse(localStorage.getItem(key));
    } catch {
      return null;
    }
  },
  write: (key, value) => {
    try {
      localStorage.setItem(key, JSON.stringify(value));
    } catch {
      // Full or forbidden: the form works all the same.
    }
  },
};

class KeptWords extends HTMLElement {
  connectedCallback() {
    if ("forget" in this.dataset) return this.#forget();
    this.key = PREFIX + this.dataset.key;
    this.form = this.querySelector("form");
    this.offer = this.querySelector(".offer");
    this.first = JSON.stringify(this.#fields());
    this.form.addEventListener("input", () => this.#keep());
    this.form.addEventListener("change", () => this.#keep());
    this.form.addEventListener("submit", () => store.write(LAST, this.key));
    this.querySelector("[data-bring]").addEventListener("click", () => this.#bring());
    this.querySelector("[data-drop]").addEventListener("click", () => this.#drop());
    const held = store.read(this.key);
    const other = held && JSON.stringify(held) !== this.first;
    if (other && !("sent" in this.dataset)) this.offer.hidden = false;
  }

  #fields() {
    return [...new FormData(this.form)].filter(([name]) => !SKIPPED.has(name));
  }

  #keep() {
    if (!this.offer.hidden) return; // What is offered must not be lost under a first new letter.
    store.write(this.key, this.#fields());
  }

  #bring() {
    const held = store.read(this.key) ?? [];
    for (const field of this.form.elements) {
      if (!field.name || SKIPPED.has(field.name)) continue;
      const mine = held.filter(([name]) => name === field.name).map(([, value]) => value);
      if (["checkbox", "radio"].includes(field.type)) field.checked = mine.includes(field.value);
      else if (mine.length) field.value = mine[0];
    }
    this.offer.hidden = true;
    this.form.dispatchEvent(new CustomEvent("restored"));
    this.form.querySelector("[name=script]").focus();
  }

  #drop() {
    localStorage.removeItem(this.key);
    this.offer.hidden = true;
    this.form.querySelector("select, input:not([type=hidden])").focus();
  }

  #forget() {
    const sent = store.read(LAST);
    if (sent) localStorage.removeItem(sent);
    localStorage.removeItem(LAST);
  }
}

customElements.define("kept-words", KeptWords);
