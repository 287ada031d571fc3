// <voice-player data-begins data-start data-end>: keeps a voice and its words in step. Lines are links to their times
// without it. All times are the recording's; `data-begins` is the one at which the sound that is played begins.
const STEP_BACK = 5;

class VoicePlayer extends HTMLElement {
  connectedCallback() {
    this.audio = this.querySelector("audio");
    this.lines = [...this.querySelectorAll(".line")];
    this.stage = ["before", "now", "after"].map((name) => this.querySelector(`.caption--${name}`));
    this.begins = Number(this.dataset.begins);
    this.start = Number(this.dataset.start);
    this.end = Number(this.dataset.end);
    this.querySelector(".player__stage").hidden = false;
    this.querySelector(".player__keys").hidden = false;
    this.playKey = this.querySelector('[data-key="play"]');
    this.querySelector(".player__keys").addEventListener("click", (event) => this.#press(event));
    this.querySelector(".lines").addEventListener("click", (event) => this.#choose(event));
    for (const sign of ["timeupdate", "seeking"]) this.audio.addEventListener(sign, () => this.#follow());
    for (const sign of ["play", "pause", "ended"]) this.audio.addEventListener(sign, () => this.#tell());
    this.audio.addEventListener("play", () => this.#alone());
    this.#caption(this.#lineAt(this.#asked()));
  }

  get time() {
    return this.audio.currentTime + this.begins;
  }

  set time(wanted) {
    this.audio.currentTime = Math.max(wanted - this.begins, 0);
  }

  // The time in the address, else the start: what the audio will begin with.
  #asked() {
    const time = /#t=([\d.]+)/.exec(this.querySelector("source").src)?.[1];
    return time === undefined ? this.start : Number(time) + this.begins;
  }

  #press(event) {
    const { key } = event.target.closest("button")?.dataset ?? {};
    if (key === "play") return this.audio.paused ? this.#play() : this.audio.pause();
    if (key === "back") this.time = Math.max(this.start, this.time - STEP_BACK);
    if (key === "start") this.#playFrom(this.start);
  }

  #choose(event) {
    const line = event.target.closest(".line");
    if (!line || event.metaKey || event.ctrlKey) return;
    event.preventDefault();
    this.#playFrom(Number(line.dataset.start));
  }

  #play() {
    if (this.time >= this.end - 0.2) this.time = this.start;
    this.audio.play();
  }

  #playFrom(time) {
    this.time = time;
    this.audio.play();
  }

  #follow() {
    if (!this.audio.paused && this.time >= this.end) this.audio.pause();
    this.#caption(this.#lineAt(this.time));
  }

  // The line being spoken; in a pause, the one before it stays.
  #lineAt(time) {
    const index = this.lines.findLastIndex((line) => Number(line.dataset.start) <= time + 0.05);
    return Math.max(index, 0);
  }

  #caption(index) {
    if (this.shown === index) return;
    this.lines[this.shown]?.removeAttribute("aria-current");
    this.lines[index]?.setAttribute("aria-current", "true");
    this.shown = index;
    this.stage.forEach((place, offset) => {
      const line = this.lines[index + offset - 1];
      place.replaceChildren(...(line ? words(line, offset === 1) : []));
    });
  }

  #tell() {
    const { playing, paused } = this.playKey.dataset;
    this.playKey.textContent = this.audio.paused ? paused : playing;
  }

  // One voice at a time.
  #alone() {
    for (const other of document.querySelectorAll("audio")) if (other !== this.audio) other.pause();
  }
}

function words(line, named) {
  const text = document.createTextNode(line.querySelector(".line__text").textContent);
  if (!named || !line.dataset.who) return [text];
  const who = document.createElement("b");
  who.className = "caption__who";
  who.textContent = line.dataset.who;
  return [who, text];
}

customElements.define("voice-player", VoicePlayer);
