// <floor-plan data-whole>: brings the plan closer by buttons, by two fingers, and moves it by one.
// Without script the plan is whole, and touching a room shows that room closer.
const CLOSEST = 6;
const STEP = 1.5;
const A_TAP = 8; // px that a finger may slip and still be a tap
const LEAST_TOUCH = 56; // px across that the ground under a check should have for a finger
const TOO_SMALL = 34; // px across below which growing it would make neighbours overlap

class FloorPlan extends HTMLElement {
  connectedCallback() {
    this.svg = this.querySelector("svg");
    this.whole = numbers(this.dataset.whole);
    this.view = numbers(this.svg.getAttribute("viewBox"));
    this.base = this.whole[2];
    this.fingers = new Map();
    this.querySelector(".zoom").hidden = false;
    this.querySelector(".zoom").addEventListener("click", (event) => this.#press(event));
    for (const [type, act] of [["pointerdown", "#down"], ["pointermove", "#move"], ["pointerup", "#up"], ["pointercancel", "#up"]]) {
      this.svg.addEventListener(type, (event) => this.#finger(act, event));
    }
    this.svg.addEventListener("click", (event) => this.moved && event.preventDefault(), { capture: true });
    this.svg.addEventListener("dragstart", (event) => event.preventDefault());
    this.svg.addEventListener("focusin", (event) => this.#reveal(event.target));
    this.#open();
  }

  // On a small screen the whole floor is too fine for a finger: start closer, at the lit check or the first one.
  #open() {
    const across = this.#touch();
    if (across === 0) return;
    if (across < TOO_SMALL) {
      const [x, y] = this.#opening();
      this.classList.add("is-small");
      const shown = this.svg.getBoundingClientRect();
      const [height, width] = [this.view[3], (this.view[3] * shown.width) / shown.height];
      this.base = width;
      this.#show([x, y, width, height], true);
    } else {
      this.#show(this.view);
    }
    const grown = Math.min(Math.max(LEAST_TOUCH / this.#touch(), 1), 1.35);
    for (const ground of this.querySelectorAll(".spot__touch")) ground.setAttribute("r", 26 * grown);
  }

  #touch() {
    return this.querySelector(".spot__touch")?.getBoundingClientRect().width ?? 0;
  }

  #opening() {
    const lit = this.querySelector(".spot[aria-current]");
    if (lit) return place(lit);
    const middle = this.#middle();
    return this.view[2] < this.whole[2] ? [middle.x, middle.y] : place(this.querySelector(".spot"));
  }

  #press(event) {
    const { zoom } = event.target.closest("button")?.dataset ?? {};
    if (zoom === "whole") this.#show(this.whole);
    else if (zoom) this.#zoom(zoom === "in" ? STEP : 1 / STEP, this.#middle());
  }

  #finger(act, event) {
    if (act === "#down") {
      this.fingers.set(event.pointerId, event);
      if (this.fingers.size === 1) this.moved = false;
    } else if (act === "#up") {
      this.fingers.delete(event.pointerId);
    } else if (this.fingers.has(event.pointerId)) {
      this.#slide(event);
    }
  }

  #slide(event) {
    const old = this.fingers.get(event.pointerId);
    const slip = Math.hypot(event.clientX - old.clientX, event.clientY - old.clientY);
    if (!this.moved && slip < A_TAP) return;
    if (!this.moved) this.svg.setPointerCapture(event.pointerId);
    this.moved = true;
    const others = [...this.fingers].filter(([id]) => id !== event.pointerId);
    this.fingers.set(event.pointerId, event);
    if (others.length) return this.#pinch(old, event, others[0][1]);
    const from = this.#point(old), to = this.#point(event);
    this.#show([this.view[0] + from.x - to.x, this.view[1] + from.y - to.y, this.view[2], this.view[3]]);
  }

  #pinch(old, now, still) {
    const apart = (one, two) => Math.hypot(one.clientX - two.clientX, one.clientY - two.clientY) || 1;
    this.#zoom(apart(now, still) / apart(old, still), this.#point(still));
  }

  #zoom(by, at) {
    const [x, y, width, height] = this.view;
    const least = this.whole[2] / CLOSEST;
    const wide = Math.min(Math.max(width / by, least), this.whole[2]);
    const kept = wide / width;
    this.#show([at.x - (at.x - x) * kept, at.y - (at.y - y) * kept, wide, height * kept]);
  }

  // A view is kept inside the whole drawing; checks grow less than the plan does.
  #show([x, y, width, height], centred = false) {
    if (centred) { x -= width / 2; y -= height / 2; }
    const keep = (at, size, from, all) => (size >= all ? from + (all - size) / 2 : Math.min(Math.max(at, from), from + all - size));
    this.view = [keep(x, width, this.whole[0], this.whole[2]), keep(y, height, this.whole[1], this.whole[3]), width, height];
    this.svg.setAttribute("viewBox", this.view.join(" "));
    this.classList.toggle("is-closer", height < this.whole[3] * 0.99);
    const closer = Math.max(this.base / width, 1);
    for (const mark of this.querySelectorAll("[data-keep-size]")) {
      mark.setAttribute("transform", `scale(${mark.dataset.keepSize / closer ** 0.6})`);
    }
    for (const word of this.querySelectorAll("[data-letters]")) {
      word.setAttribute("font-size", word.dataset.letters / closer ** 0.6);
    }
  }

  #reveal(link) {
    if (!link.matches(".spot, .way")) return;
    const [x, y] = place(link);
    const [left, top, width, height] = this.view;
    if (x < left || y < top || x > left + width || y > top + height) this.#show([x, y, width, height], true);
  }

  #middle() {
    return { x: this.view[0] + this.view[2] / 2, y: this.view[1] + this.view[3] / 2 };
  }

  #point(event) {
    return new DOMPoint(event.clientX, event.clientY).matrixTransform(this.svg.getScreenCTM().inverse());
  }
}

function numbers(text) {
  return text.trim().split(/[\s,]+/).map(Number);
}

function place(link) {
  const { e, f } = link.transform.baseVal.consolidate().matrix;
  return [e, f];
}

customElements.define("floor-plan", FloorPlan);
