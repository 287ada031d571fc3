// <search-room>: asks, narrows and turns pages without leaving the page, so that a voice goes on playing.
// It fetches the very page that the form or link leads to and puts in its results; without script these just load.

class SearchRoom extends HTMLElement {
  connectedCallback() {
    this.form = this.querySelector("form");
    this.form.addEventListener("submit", (event) => this.#submit(event));
    this.addEventListener("click", (event) => this.#click(event));
    this.addEventListener("keydown", (event) => this.#clear(event));
    window.addEventListener("popstate", () => this.#show(location.href));
    this.#unfold();
  }

  #submit(event) {
    event.preventDefault();
    const words = new URLSearchParams(new FormData(this.form));
    this.#go(`${this.form.action}?${words}`);
  }

  #click(event) {
    const link = event.target.closest("a");
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const here = new URL(this.form.action);
    if (new URL(link.href).pathname !== here.pathname) return;
    event.preventDefault();
    this.#go(link.href);
  }

  #clear(event) {
    if (event.key === "Escape" && event.target.matches("input")) event.target.value = "";
  }

  async #go(address) {
    if (await this.#show(address)) {
      history.pushState(null, "", address);
      this.querySelector("[data-count]")?.focus({ preventScroll: true });
      this.scrollIntoView({ block: "start" });
    }
  }

  /** Put in the results of an address; gives whether they came. */
  async #show(address) {
    this.asked?.abort();
    this.asked = new AbortController();
    this.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(address, { signal: this.asked.signal });
      if (!answer.ok || answer.redirected) throw new TypeError(answer.statusText);
      this.#take(new DOMParser().parseFromString(await answer.text(), "text/html"));
      return true;
    } catch (problem) {
      if (problem.name !== "AbortError") this.#say(this.getAttribute("failed"));
      return false;
    } finally {
      this.removeAttribute("aria-busy");
    }
  }

  #take(page) {
    for (const part of ["[data-found]", "h1"]) this.querySelector(part).replaceWith(page.querySelector(`search-room ${part}`));
    this.querySelector("input[name=q]").value = page.querySelector("input[name=q]").value;
    document.title = page.title;
    this.#unfold();
    this.#say(this.querySelector("[data-count]")?.textContent ?? "");
  }

  #unfold() {
    const fold = this.querySelector("[data-fold]");
    if (fold) fold.open = matchMedia("(min-width: 60rem)").matches;
  }

  #say(words) {
    this.querySelector("[data-said]").textContent = words;
  }
}

customElements.define("search-room", SearchRoom);
