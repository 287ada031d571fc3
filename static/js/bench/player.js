// The sound: play, back, slower at the same pitch; and which moment is heard.
const RATES = [0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.2, 1.5];
const BACK_SECONDS = 2;

export class Player extends EventTarget {
  constructor(audio) {
    super();
    this.audio = audio;
    audio.preservesPitch = true;
    for (const sign of ["timeupdate", "play", "pause", "seeking", "ratechange"]) {
      audio.addEventListener(sign, () => this.dispatchEvent(new Event("moved")));
    }
  }

  /** The moment heard, in milliseconds. */
  get now() {
    return Math.round(this.audio.currentTime * 1000);
  }

  get playing() {
    return !this.audio.paused;
  }

  get rate() {
    return this.audio.playbackRate;
  }

  async play() {
    if (this.playing) return this.audio.pause();
    await this.#start();
  }

  back() {
    this.audio.currentTime = Math.max(0, this.audio.currentTime - BACK_SECONDS);
  }

  async from(ms) {
    this.audio.currentTime = ms / 1000;
    await this.#start();
  }

  goTo(ms) {
    this.audio.currentTime = ms / 1000;
  }

  /** One step slower (-1) or faster (1). The browser keeps the pitch. */
  pace(step) {
    const at = RATES.findIndex((rate) => rate >= this.rate - 0.001);
    this.audio.playbackRate = RATES[Math.min(Math.max(at + step, 0), RATES.length - 1)];
  }

  async #start() {
    try {
      await this.audio.play();
    } catch (problem) {
      // Paused again, or sent elsewhere, before it began; or there is no sound, which its own "error" tells.
      if (!["AbortError", "NotSupportedError"].includes(problem.name)) throw problem;
    }
  }
}
