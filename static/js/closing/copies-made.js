// <copies-made>: says when the new copies are ready, or leads to what stands in their way; the page stays as it is.
const LOOK_EVERY_MS = 1000;

class CopiesMade extends HTMLElement {
  connectedCallback() {
    this.look();
  }

  disconnectedCallback() {
    clearTimeout(this.timer);
  }

  async look() {
    try {
      const answer = await fetch(this.dataset.follow, { headers: { Accept: "application/json" } });
      if (!answer.ok || answer.redirected) return;
      const { state, says, ended } = await answer.json();
      if (ended) return this.#tell(state, says);
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem; // The network is gone for now; the work goes on without it.
    }
    this.timer = setTimeout(() => this.look(), LOOK_EVERY_MS);
  }

  #tell(state, says) {
    const ready = document.querySelector('[data-word="ready"]').textContent;
    this.querySelector("[role=status]").textContent = state === "done" ? ready : says;
  }
}

customElements.define("copies-made", CopiesMade);
