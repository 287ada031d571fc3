// <voice-reader>: a transcript in step with its sound. It holds an <audio>, a <level-strip>, controls and lines.

import "./level-strip.js";
import { clock, readFragment } from "../voice/fragment.js";
import { Lines } from "../voice/lines.js";

const CONTROLS = "a, button, input, select, textarea, summary, audio, [role=slider]";
const JUMP = 5;

class VoiceReader extends HTMLElement {
  #current = -1;
  #stopAt = Infinity;

  connectedCallback() {
    this.audio = this.querySelector("audio");
    this.strip = this.querySelector("level-strip");
    this.lines = new Lines(this.querySelectorAll(".line"));
    this.#takeOver();
    this.#listen();
    this.#goToAddress();
  }

  toggle() {
    if (this.audio.paused) this.#play();
    else this.audio.pause();
  }

  /** Go to a time; `end` is where the voice falls silent again. */
  seek(time, end = Infinity) {
    this.#stopAt = end;
    this.audio.currentTime = Math.min(Math.max(time, 0), this.strip.duration);
    this.#show();
  }

  hear(line) {
    if (!line) return;
    this.seek(line.start);
    history.replaceState(null, "", line.element.querySelector(".line-time").href);
    this.#play();
  }

  #play() {
    this.audio.play().catch((problem) => {
      if (problem.name !== "AbortError") this.querySelector(".sound-problem").hidden = false;
    });
  }

  #takeOver() {
    this.audio.controls = false;
    this.querySelector(".sound-controls").hidden = false;
    this.button = this.querySelector("[data-play]");
    this.words = { true: this.button.textContent, false: this.button.dataset.pauseWord };
  }

  #listen() {
    for (const name of ["timeupdate", "seeked"]) this.audio.addEventListener(name, () => this.#show());
    for (const name of ["play", "pause", "ended"]) this.audio.addEventListener(name, () => this.#showState());
    this.button.addEventListener("click", () => this.toggle());
    this.querySelector("[data-speed]").addEventListener("change", (event) => {
      this.audio.playbackRate = Number(event.target.value);
    });
    this.addEventListener("seek", (event) => this.seek(event.detail));
    this.addEventListener("click", (event) => this.#click(event));
    document.addEventListener("keydown", (event) => this.#key(event));
    window.addEventListener("hashchange", () => this.#goToAddress());
  }

  #goToAddress() {
    const asked = readFragment(location.hash) ?? readFragment(`t=${new URLSearchParams(location.search).get("t")}`);
    if (!asked) return;
    this.seek(asked.start, asked.end);
    this.#scrollTo(this.lines.all[this.#current]);
  }

  #click(event) {
    if (!event.target.closest(".line-time, .line-text") || !getSelection().isCollapsed) return;
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    this.hear(this.lines.around(event.target));
  }

  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const inControl = event.target.closest(CONTROLS);
    // A time in the margin is a link: arrows still go from line to line there, and Enter hears it.
    if (inControl && !(inControl.matches(".line-time") && event.key !== " ")) return;
    const deeds = {
      " ": () => this.toggle(),
      ArrowLeft: () => this.seek(this.audio.currentTime - JUMP),
      ArrowRight: () => this.seek(this.audio.currentTime + JUMP),
      ArrowUp: () => this.#step(-1),
      ArrowDown: () => this.#step(1),
    };
    if (!(event.key in deeds)) return;
    event.preventDefault();
    deeds[event.key]();
  }

  #step(places) {
    const line = this.lines.from(this.audio.currentTime, places);
    if (!line) return;
    this.seek(line.start);
    this.#scrollTo(line);
  }

  #show() {
    const time = this.audio.currentTime;
    if (time >= this.#stopAt && !this.audio.paused) {
      this.#stopAt = Infinity;
      this.audio.pause();
    }
    this.strip.show(time);
    this.querySelector("[data-now]").textContent = clock(time);
    this.#mark(this.lines.spokenAt(time));
  }

  #mark(number) {
    if (number === this.#current) return;
    this.querySelector(".line[aria-current]")?.removeAttribute("aria-current");
    this.#current = number;
    const line = this.lines.all[number];
    line?.element.setAttribute("aria-current", "true");
    if (line && !this.audio.paused && this.querySelector("[data-follow]").checked) this.#scrollTo(line);
  }

  #showState() {
    this.button.textContent = this.words[this.audio.paused];
    this.classList.toggle("speaking", !this.audio.paused);
  }

  #scrollTo(line) {
    if (!line) return;
    const smooth = !this.audio.paused && !matchMedia("(prefers-reduced-motion: reduce)").matches;
    line.element.scrollIntoView({ block: "center", behavior: smooth ? "smooth" : "auto" });
  }
}

customElements.define("voice-reader", VoiceReader);
