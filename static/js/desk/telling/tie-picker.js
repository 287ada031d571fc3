// <tie-picker>: the statements narrow as one types; what is ticked stays in sight. Down goes from the field into the list.
class TiePicker extends HTMLElement {
  connectedCallback() {
    this.find = this.querySelector("[name=find]");
    this.found = this.querySelector("[data-found]");
    this.list = this.querySelector(".ties-list");
    for (const plain of this.querySelectorAll("[data-plain]")) plain.hidden = true;
    this.find.addEventListener("input", () => this.#sift());
    this.find.addEventListener("keydown", (event) => this.#fromField(event));
    this.list.addEventListener("keydown", (event) => this.#inList(event));
    if (this.find.value) this.#sift();
  }

  #sift() {
    const sought = this.find.value.toLowerCase().split(/\s+/).filter(Boolean);
    let count = 0;
    for (const tie of this.list.querySelectorAll(".tie")) {
      const hit = sought.every((word) => tie.textContent.toLowerCase().includes(word));
      tie.hidden = !hit && !tie.querySelector("input").checked;
      if (hit) count += 1;
    }
    this.found.textContent = !sought.length ? "" : count ? `${this.found.dataset.some} ${count}` : this.found.dataset.none;
  }

  #fromField(event) {
    if (event.key === "Enter") {
      event.preventDefault();
      event.stopPropagation();
    }
    if (event.key !== "ArrowDown") return;
    event.preventDefault();
    this.#open()[0]?.focus();
  }

  #inList(event) {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step) return;
    event.preventDefault();
    const open = this.#open();
    const next = open.indexOf(document.activeElement) + step;
    if (next < 0) this.find.focus();
    else open[Math.min(next, open.length - 1)]?.focus();
  }

  #open() {
    return [...this.list.querySelectorAll(".tie:not([hidden]) input")];
  }
}

customElements.define("tie-picker", TiePicker);
