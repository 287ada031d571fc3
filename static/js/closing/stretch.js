// The waveform around the moment that is heard: what is chosen on it, its guard, and what is closed already.
import { draw } from "./drawing.js";

const WIDTHS_MS = [2_000, 5_000, 15_000, 30_000, 60_000];
const NEAR_PX = 8;
const STILL_PX = 4;

export class Stretch extends EventTarget {
  constructor(canvas, address, player, duration) {
    super();
    Object.assign(this, { canvas, address, player, duration, zoom: 2, chosen: null, guard: null, closed: [] });
    this.from = 0;
    canvas.addEventListener("pointerdown", (event) => this.#press(event));
    canvas.addEventListener("pointermove", (event) => this.#drag(event));
    canvas.addEventListener("pointerup", (event) => this.#letGo(event));
    player.addEventListener("moved", () => this.#follow());
    new ResizeObserver(() => this.draw()).observe(canvas);
    this.#ask();
  }

  get width() {
    return Math.min(WIDTHS_MS[this.zoom], this.duration);
  }

  /** Choose a stretch, or nothing; it is brought into view. */
  choose(chosen) {
    this.chosen = chosen;
    if (chosen && !this.pressed && !(this.#sees(chosen.start) && this.#sees(chosen.end))) this.#frame(chosen);
    this.draw();
  }

  /** One step closer (-1) or further (1), around what is heard. */
  scale(step) {
    this.zoom = Math.min(Math.max(this.zoom + step, 0), WIDTHS_MS.length - 1);
    this.#lookAt(this.player.now);
  }

  draw() {
    draw(this);
  }

  x(ms) {
    return ((ms - this.from) / this.width) * this.canvas.clientWidth;
  }

  #at(x) {
    return Math.min(Math.max(0, Math.round(this.from + (x / this.canvas.clientWidth) * this.width)), this.duration);
  }

  #sees(ms) {
    return ms >= this.from && ms <= this.from + this.width;
  }

  /** Show all of a stretch if that can be, else its start. */
  #frame({ start, end }) {
    const wide = WIDTHS_MS.findIndex((width) => width >= (end - start) * 1.3);
    if (wide > this.zoom) this.zoom = wide;
    this.#lookAt(wide < 0 ? start : start - (this.width - (end - start)) / 2 + this.width / 3);
  }

  #lookAt(ms) {
    this.from = Math.round(Math.min(Math.max(0, ms - this.width / 3), Math.max(0, this.duration - this.width)));
    this.levels = null;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.#ask(), 120); // Not for every place that is passed on the way.
    this.draw();
  }

  async #ask() {
    const { from, width } = this;
    const answer = await fetch(`${this.address}?from=${from}&to=${from + width}`, { headers: { Accept: "application/json" } });
    if (!answer.ok || answer.redirected || this.from !== from || this.width !== width) return;
    this.levels = await answer.json();
    this.canvas.dataset.drawn = `${from}-${from + width}`;
    this.draw();
  }

  #press(event) {
    const { start, end } = this.chosen ?? {};
    const x = event.offsetX;
    const near = (ms) => ms !== undefined && Math.abs(this.x(ms) - x) <= NEAR_PX;
    this.pressed = { x, held: near(end) ? start : near(start) ? end : this.#at(x), moved: near(start) || near(end) };
    this.canvas.setPointerCapture(event.pointerId);
  }

  #drag(event) {
    if (!this.pressed) return;
    this.pressed.moved ||= Math.abs(event.offsetX - this.pressed.x) > STILL_PX;
    const [a, b] = [this.pressed.held, this.#at(event.offsetX)];
    if (this.pressed.moved && a !== b) this.dispatchEvent(new CustomEvent("chosen", { detail: { start: Math.min(a, b), end: Math.max(a, b) } }));
  }

  #letGo(event) {
    if (this.pressed && !this.pressed.moved) this.player.goTo(this.#at(event.offsetX));
    this.pressed = null;
  }

  #follow() {
    if (!this.#sees(this.player.now) && !this.pressed) this.#lookAt(this.player.now);
    this.draw();
    if (this.player.playing && !this.frame) {
      this.frame = requestAnimationFrame(() => {
        this.frame = null;
        this.#follow();
      });
    }
  }
}
