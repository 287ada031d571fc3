// <noise-map data-part data-failed>: switches machines and doors, and reads the level where the plan is touched,
// without leaving the page. It fetches only what changes; without script the form and the checks are plain links.

const PARTS = ["[data-field]", "[data-figures]", "[data-reading]"];
const WAIT = 120; // ms after the last key in a number before it is asked

class NoiseMap extends HTMLElement {
  connectedCallback() {
    this.form = this.querySelector("form");
    this.plan = this.querySelector(".noise-drawing");
    this.plan.classList.add("is-read");
    this.querySelector("[data-hint]").hidden = false;
    this.querySelector("[data-show]").hidden = true;
    this.form.addEventListener("submit", (event) => this.#submit(event));
    this.form.addEventListener("input", (event) => this.#changed(event));
    this.plan.addEventListener("click", (event) => this.#touched(event));
  }

  #submit(event) {
    event.preventDefault();
    this.#show();
  }

  #changed(event) {
    clearTimeout(this.later);
    if (event.target.name === "floor") return this.#otherFloor();
    if (event.target.name === "at") this.#place("", "");
    if (event.target.type !== "number") return this.#show();
    if (event.target.checkValidity()) this.later = setTimeout(() => this.#show(), WAIT);
  }

  // Another floor is another drawing: its page is loaded whole, and what was read here is let go.
  #otherFloor() {
    this.form.elements.at.value = "";
    this.#place("", "");
    this.form.submit();
  }

  #touched(event) {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    const check = event.target.closest("[data-at]");
    event.preventDefault();
    this.form.elements.at.value = check?.dataset.at ?? "";
    if (check) this.#place("", "");
    else this.#place(...this.#units(event));
    this.#show();
  }

  /** Where the plan was touched, in whole drawing units from its left and top edge. */
  #units(event) {
    const { x: left, y: top } = this.plan.viewBox.baseVal;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.plan.getScreenCTM().inverse());
    return [Math.max(0, Math.round(x - left)), Math.max(0, Math.round(y - top))];
  }

  #place(x, y) {
    this.form.elements.x.value = x;
    this.form.elements.y.value = y;
  }

  async #show() {
    if (!this.form.checkValidity()) return;
    const asked = new URLSearchParams([...new FormData(this.form)].filter(([, value]) => value !== ""));
    this.asking?.abort();
    this.asking = new AbortController();
    this.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(`${this.dataset.part}?${asked}`, { signal: this.asking.signal });
      if (!answer.ok || answer.redirected) throw new TypeError(answer.statusText);
      this.#take(new DOMParser().parseFromString(await answer.text(), "text/html"));
      history.replaceState(null, "", `${this.form.action}?${asked}`);
      this.#tell("");
      this.removeAttribute("aria-busy");
    } catch (problem) {
      if (problem.name === "AbortError") return;
      this.removeAttribute("aria-busy");
      this.#tell(this.dataset.failed);
    }
  }

  // The sentence that is read out stays the same element, so that screen readers hear it change.
  #take(page) {
    const said = this.querySelector("[data-said]");
    const fresh = page.querySelector("[data-said]");
    const words = [...fresh.childNodes];
    fresh.replaceWith(said);
    for (const part of PARTS) this.querySelector(part).replaceWith(page.querySelector(part));
    said.replaceChildren(...words);
  }

  #tell(words) {
    const problem = this.querySelector("[data-problem]");
    problem.textContent = words;
    problem.hidden = !words;
    this.querySelector("[data-show]").hidden = !words;
  }
}

customElements.define("noise-map", NoiseMap);
