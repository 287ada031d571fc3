// Follows a piece of work: moves the bar, says what is being done, and goes on to what came of it.
const LOOK_EVERY_MS = 400;
const WAITED_LONG_MS = 8000;

class JobProgress extends HTMLElement {
  connectedCallback() {
    this.began = Date.now();
    this.look();
  }

  disconnectedCallback() {
    clearTimeout(this.timer);
  }

  async look() {
    try {
      const answer = await fetch(this.dataset.follow, { headers: { Accept: "application/json" } });
      if (!answer.ok || answer.redirected) return location.reload();
      this.show(await answer.json());
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem;
      this.later(); // The network is gone for now; the work goes on without it.
    }
  }

  show({ state, share, says, ended, address }) {
    if (address) return location.replace(address);
    if (ended) return location.reload();
    const said = this.querySelector(".job-says");
    if (said.textContent !== says) said.textContent = says;
    this.querySelector(".job-bar").value = share;
    this.querySelector(".job-waits").hidden = state !== "waiting" || Date.now() - this.began < WAITED_LONG_MS;
    this.later();
  }

  later() {
    this.timer = setTimeout(() => this.look(), LOOK_EVERY_MS);
  }
}

customElements.define("job-progress", JobProgress);
