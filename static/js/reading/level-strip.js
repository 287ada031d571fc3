// <level-strip>: a recording's levels as a thin strip that is also the slider of the player.
// It asks for another time with a `seek` event (detail: seconds) and is told the time by `show(seconds)`.

import { clock } from "../voice/fragment.js";

const SVG = "http://www.w3.org/2000/svg";
const BARS = 480;
const STEP = 5;

function svg(name, attributes, ...children) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

class LevelStrip extends HTMLElement {
  #played;
  #time = 0;

  connectedCallback() {
    this.hidden = false;
    this.duration = Number(this.getAttribute("duration"));
    this.#beSlider();
    this.#draw([]);
    this.show(0);
    this.addEventListener("keydown", (event) => this.#key(event));
    this.addEventListener("pointerdown", (event) => this.#drag(event));
    this.#fetchLevels();
  }

  /** Draw the played part up to a time. */
  show(time) {
    this.#time = time;
    this.#played?.setAttribute("width", (BARS * time) / this.duration);
    this.setAttribute("aria-valuenow", Math.round(time));
    this.setAttribute("aria-valuetext", `${clock(time)} ${this.getAttribute("of")} ${clock(this.duration)}`);
  }

  #beSlider() {
    const facts = { role: "slider", tabindex: 0, "aria-label": this.getAttribute("label") };
    Object.assign(facts, { "aria-valuemin": 0, "aria-valuemax": Math.round(this.duration) });
    for (const [name, value] of Object.entries(facts)) this.setAttribute(name, value);
  }

  async #fetchLevels() {
    const answer = await fetch(this.getAttribute("src"));
    if (!answer.ok) return;
    const { peaks } = await answer.json();
    this.#draw(peaks);
    this.show(this.#time);
  }

  #draw(peaks) {
    const bars = this.#bars(peaks);
    this.#played = svg("rect", { x: 0, y: 0, width: 0, height: 100 });
    const shape = { viewBox: `0 0 ${BARS} 100`, preserveAspectRatio: "none", "aria-hidden": "true", focusable: "false" };
    const picture = svg(
      "svg",
      shape,
      svg("clipPath", { id: "levels-played" }, this.#played),
      svg("path", { class: "levels-all", d: bars }),
      svg("path", { class: "levels-played", d: bars, "clip-path": "url(#levels-played)" }),
    );
    this.replaceChildren(picture, ...this.#closedMarks());
  }

  #bars(peaks) {
    const loudest = Math.max(1, ...peaks);
    const heights = Array.from({ length: BARS }, (_, bar) => {
      const first = Math.floor((bar * peaks.length) / BARS);
      const last = Math.max(first + 1, Math.floor(((bar + 1) * peaks.length) / BARS));
      return Math.max(0, ...peaks.slice(first, last)) / loudest;
    });
    return heights.map((height, bar) => `M${bar + 0.5} ${50 - 1 - 47 * height}v${2 + 94 * height}`).join("");
  }

  #closedMarks() {
    const spans = this.getAttribute("closed").split(" ").filter(Boolean);
    return spans.map((span) => {
      const [start, end] = span.split(",").map(Number);
      const mark = document.createElement("span");
      mark.className = "levels-closed";
      mark.append(document.createElement("span"));
      mark.firstChild.textContent = this.getAttribute("closed-word");
      mark.style.left = `${(100 * start) / this.duration}%`;
      mark.style.width = `${(100 * (end - start)) / this.duration}%`;
      return mark;
    });
  }

  #seek(time) {
    const detail = Math.min(Math.max(time, 0), this.duration);
    this.dispatchEvent(new CustomEvent("seek", { detail, bubbles: true }));
  }

  #key(event) {
    const moves = { ArrowLeft: -STEP, ArrowDown: -STEP, ArrowRight: STEP, ArrowUp: STEP, PageDown: -60, PageUp: 60 };
    const ends = { Home: 0, End: this.duration };
    const time = event.key in moves ? this.#time + moves[event.key] : ends[event.key];
    if (time === undefined) return;
    event.preventDefault();
    this.#seek(time);
  }

  #drag(event) {
    const seek = (at) => {
      const box = this.getBoundingClientRect();
      this.#seek((this.duration * (at.clientX - box.left)) / box.width);
    };
    const end = () => this.removeEventListener("pointermove", seek);
    this.setPointerCapture(event.pointerId);
    this.addEventListener("pointermove", seek);
    this.addEventListener("pointerup", end, { once: true });
    this.addEventListener("pointercancel", end, { once: true });
    seek(event);
  }
}

customElements.define("level-strip", LevelStrip);
