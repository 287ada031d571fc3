// The waveform under the chosen line: its boundaries, its neighbours', and the moment heard.
import { readied } from "../workroom/sharp-canvas.js";

const AROUND_MS = 1500;
const LONGEST_MS = 59_000;

export class Wave {
  constructor(canvas, address, player) {
    this.canvas = canvas;
    this.address = address;
    this.player = player;
    this.span = { start: 0, end: 1 };
    this.edges = [];
    canvas.addEventListener("click", (event) => player.goTo(this.#momentAt(event.offsetX)));
    player.addEventListener("moved", () => this.#follow());
    new ResizeObserver(() => this.draw()).observe(canvas);
  }

  /** Show a line with a little before and after it. */
  show(line, neighbours) {
    this.edges = [...neighbours.map((each) => ({ ...each, own: false })), { start: line.start, end: line.end, own: true }];
    const fits = line.start >= this.span.start + 200 && line.end <= this.span.end - 200 && this.line === line.id;
    if (!fits) {
      const start = Math.max(0, line.start - AROUND_MS);
      this.span = { start, end: Math.min(line.end + AROUND_MS, start + LONGEST_MS) };
      this.line = line.id;
      this.levels = null;
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.#ask(), 120); // Not for every line that is passed on the way.
    }
    this.draw();
  }

  async #ask() {
    const { start, end } = this.span;
    const answer = await fetch(`${this.address}?from=${start}&to=${end}`, { headers: { Accept: "application/json" } });
    if (!answer.ok || this.span.start !== start) return;
    this.levels = await answer.json();
    this.canvas.dataset.drawn = `${start}-${end}`;
    this.draw();
  }

  draw() {
    const { canvas } = this;
    const ready = readied(canvas);
    if (!ready) return;
    const { brush, width, height } = ready;
    const colours = getComputedStyle(canvas);
    this.#drawEdges(brush, colours, height);
    if (this.levels) this.#drawLevels(brush, colours.getPropertyValue("--voice"), width, height);
    brush.fillStyle = colours.getPropertyValue("--words");
    if (this.player.now >= this.span.start && this.player.now <= this.span.end) brush.fillRect(this.#x(this.player.now), 0, 2, height);
  }

  #drawEdges(brush, colours, height) {
    for (const { start, end, own } of this.edges) {
      const [from, to] = [this.#x(start), this.#x(end)];
      brush.fillStyle = colours.getPropertyValue(own ? "--sheet" : "--ground");
      brush.fillRect(from, 0, to - from, height);
      brush.fillStyle = colours.getPropertyValue(own ? "--place" : "--line");
      brush.fillRect(from, 0, own ? 2 : 1, height);
      brush.fillRect(to - (own ? 2 : 1), 0, own ? 2 : 1, height);
    }
  }

  #drawLevels(brush, colour, width, height) {
    const { start, step, peaks } = this.levels;
    brush.fillStyle = colour;
    let [column, highest] = [-1, 0];
    const stroke = () => brush.fillRect(column, (height - highest) / 2, 1, Math.max(1, highest));
    peaks.forEach((peak, at) => {
      const x = Math.floor(this.#x(start + at * step));
      if (x !== column && column >= 0) stroke();
      if (x !== column) [column, highest] = [x, 0];
      highest = Math.max(highest, Math.sqrt(peak / 255) * height);
    });
    if (column >= 0 && column < width) stroke();
  }

  #follow() {
    this.draw();
    if (this.player.playing && !this.frame) {
      this.frame = requestAnimationFrame(() => {
        this.frame = null;
        this.#follow();
      });
    }
  }

  #x(ms) {
    return ((ms - this.span.start) / (this.span.end - this.span.start)) * this.canvas.clientWidth;
  }

  #momentAt(x) {
    return this.span.start + (x / this.canvas.clientWidth) * (this.span.end - this.span.start);
  }
}
