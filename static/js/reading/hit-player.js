// <hit-player>: one small player for a page of results. Each "hear it" link plays here from its time to its end;
// without script the same link opens the transcript at that time.

class HitPlayer extends HTMLElement {
  #link = null;

  connectedCallback() {
    this.audio = this.querySelector("audio");
    this.form = this.audio.canPlayType('audio/webm; codecs="opus"') ? 0 : 1;
    document.addEventListener("click", (event) => this.#click(event));
    this.querySelector("[data-close]").addEventListener("click", () => this.#close());
    this.audio.addEventListener("timeupdate", () => this.#stopInTime());
    for (const name of ["play", "pause"]) this.audio.addEventListener(name, () => this.#showState());
  }

  #click(event) {
    const link = event.target.closest?.("a[data-sounds]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    if (link === this.#link && !this.audio.paused) this.audio.pause();
    else this.#hear(link);
  }

  #hear(link) {
    this.#showState(false);
    this.#link = link;
    this.end = Number(link.dataset.end);
    const sound = new URL(link.dataset.sounds.split(" ")[this.form], location.href).href;
    if (this.audio.src !== sound) this.audio.src = sound;
    this.audio.currentTime = Number(link.dataset.start);
    this.hidden = false;
    this.querySelector("[data-words]").textContent = `${this.getAttribute("playing")}: ${link.dataset.who}`;
    this.audio.play().catch((problem) => {
      // A sound that cannot be played here may still be read: go where the link leads.
      if (problem.name === "NotSupportedError") location.assign(link.href);
    });
  }

  #stopInTime() {
    if (this.audio.currentTime < this.end) return;
    this.end = Infinity;
    this.audio.pause();
  }

  #close() {
    this.audio.pause();
    this.hidden = true;
    if (this.#link?.isConnected) this.#link.focus();
  }

  #showState(playing = !this.audio.paused) {
    this.#link?.classList.toggle("hit-hear--on", playing);
  }
}

customElements.define("hit-player", HitPlayer);
