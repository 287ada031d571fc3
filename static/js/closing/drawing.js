// Drawing a stretch of sound: closed passages hatched, what is chosen, its guard, the levels, the moment heard.
import { readied } from "../workroom/sharp-canvas.js";

const HATCH_PX = 9;

export function draw(stretch) {
  const { canvas } = stretch;
  const ready = readied(canvas);
  if (!ready) return;
  const { brush, width, height } = ready;
  const style = getComputedStyle(canvas);
  const colour = (name) => style.getPropertyValue(name);
  if (stretch.chosen) band(brush, stretch, stretch.chosen, height, colour("--sheet"));
  for (const each of stretch.closed) hatch(brush, stretch, each, height, colour("--words-quiet"));
  if (stretch.levels) levels(brush, stretch, width, height, colour("--voice"));
  if (stretch.guard) edges(brush, stretch, stretch.guard, height, colour("--words-quiet"), [3, 3]);
  if (stretch.chosen) edges(brush, stretch, stretch.chosen, height, colour("--place"), []);
  brush.fillStyle = colour("--words");
  brush.fillRect(stretch.x(stretch.player.now), 0, 2, height);
}

function band(brush, stretch, { start, end }, height, colour) {
  brush.fillStyle = colour;
  brush.fillRect(stretch.x(start), 0, stretch.x(end) - stretch.x(start), height);
}

function hatch(brush, stretch, { start, end }, height, colour) {
  const [from, to] = [Math.max(0, stretch.x(start)), Math.min(stretch.canvas.clientWidth, stretch.x(end))];
  if (to <= from) return;
  brush.save();
  brush.beginPath();
  brush.rect(from, 0, to - from, height);
  brush.clip();
  brush.strokeStyle = colour;
  brush.globalAlpha = 0.55;
  brush.beginPath();
  for (let x = Math.floor((from - height) / HATCH_PX) * HATCH_PX; x < to; x += HATCH_PX) {
    brush.moveTo(x, height);
    brush.lineTo(x + height, 0);
  }
  brush.stroke();
  brush.restore();
}

function edges(brush, stretch, { start, end }, height, colour, dashes) {
  brush.strokeStyle = colour;
  brush.lineWidth = dashes.length ? 1 : 2;
  brush.setLineDash(dashes);
  brush.beginPath();
  for (const x of [stretch.x(start), stretch.x(end)]) {
    brush.moveTo(x, 0);
    brush.lineTo(x, height);
  }
  brush.stroke();
  brush.setLineDash([]);
}

function levels(brush, stretch, width, height, colour) {
  const { start, step, peaks } = stretch.levels;
  const highest = new Map();
  peaks.forEach((peak, at) => {
    const x = Math.floor(stretch.x(start + at * step));
    if (x >= 0 && x < width) highest.set(x, Math.max(highest.get(x) ?? 0, peak));
  });
  const wide = Math.max(1, Math.ceil((step / stretch.width) * width) - 1);
  brush.fillStyle = colour;
  for (const [x, peak] of highest) {
    const tall = Math.max(1, Math.sqrt(peak / 255) * height);
    brush.fillRect(x, (height - tall) / 2, wide, tall);
  }
}
