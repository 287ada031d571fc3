// Hearing the edges of a stretch where its links stand; a second press stops. Without script the links open the sound.
export class Edges extends EventTarget {
  constructor(room, audio, say) {
    super();
    Object.assign(this, { audio, say });
    this.opus = audio.canPlayType('audio/webm; codecs="opus"') !== "";
    room.addEventListener("click", (event) => this.#press(event));
    for (const sign of ["ended", "pause"]) audio.addEventListener(sign, () => this.#mark(null));
    audio.addEventListener("error", () => audio.currentSrc && this.playing && this.say("no-edge"));
  }

  stop() {
    this.audio.pause();
  }

  #press(event) {
    const link = event.target.closest("[data-edge]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    if (link === this.playing) return this.stop();
    this.#play(link);
  }

  async #play(link) {
    this.stop();
    this.audio.src = this.opus ? link.href : link.href.replace("/heard.webm?", "/heard.mp3?");
    this.#mark(link);
    this.dispatchEvent(new Event("playing"));
    this.say("playing", { what: link.textContent.trim() });
    try {
      await this.audio.play();
    } catch (problem) {
      // Stopped again before it began; or it cannot be played, which its own "error" tells.
      if (!["AbortError", "NotSupportedError"].includes(problem.name)) throw problem;
    }
  }

  #mark(link) {
    this.playing?.removeAttribute("data-playing");
    this.playing = link;
    link?.setAttribute("data-playing", "");
  }
}
