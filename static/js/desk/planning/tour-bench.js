// <tour-bench data-failed>: a tour is changed without leaving the page. Every deed is sent as its button would send
// it; the page that comes back gives the new part, the focus stays where it was, and the deed is read out.
import { dragging } from "./dragging.js";

const MOVES = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1 };

class TourBench extends HTMLElement {
  connectedCallback() {
    this.addEventListener("submit", (event) => this.#submit(event));
    this.addEventListener("keydown", (event) => this.#grip(event));
    this.steps = (event) => this.#step(event);
    document.addEventListener("keydown", this.steps);
    dragging(this, (from, to) => this.#send(`move ${from} ${to}`));
    this.#ready();
  }

  disconnectedCallback() {
    document.removeEventListener("keydown", this.steps);
  }

  #ready() {
    for (const plain of this.querySelectorAll("[data-plain]")) plain.hidden = true;
    for (const part of this.querySelectorAll("[data-grip], [data-script]")) part.hidden = false;
  }

  #submit(event) {
    const button = event.submitter;
    if (!event.target.matches("[data-deeds]") || !button || "leaves" in button.dataset) return;
    event.preventDefault();
    if (button.getAttribute("aria-disabled") !== "true") this.#send(button.value);
  }

  /** The keys of a stop that is chosen by its check. */
  #grip(event) {
    const stop = event.target.matches("[data-grip]") && event.target.closest("[data-at]");
    if (!stop || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key in MOVES) {
      event.preventDefault();
      this.#move(Number(stop.dataset.at), MOVES[event.key]);
    } else if (event.key === "p" || event.key === "P") this.#press(stop, "pin");
    else if (event.key === "Delete") this.#press(stop, "drop");
  }

  #move(at, by) {
    const stops = [...this.querySelectorAll("[data-at]")];
    const place = stops.findIndex((stop) => Number(stop.dataset.at) === at);
    const other = stops[place + by];
    if (other) this.#send(`move ${at} ${other.dataset.at}`);
  }

  #press(stop, deed) {
    this.#send(stop.querySelector(`[data-key="${deed} ${CSS.escape(stop.dataset.stop)}"]`).value);
  }

  /** Ctrl+Z and Ctrl+Y, unless a text is being written. */
  #step(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.target.matches?.("input, textarea")) return;
    const key = event.key.toLowerCase();
    const deed = key === "y" || (key === "z" && event.shiftKey) ? "redo" : key === "z" ? "undo" : "";
    const button = deed && this.querySelector(`[data-key="${deed}"]`);
    if (!button) return;
    event.preventDefault();
    if (button.getAttribute("aria-disabled") !== "true") this.#send(deed);
  }

  async #send(deed) {
    if (this.hasAttribute("aria-busy")) return;
    this.setAttribute("aria-busy", "true");
    const form = this.querySelector("[data-deeds]");
    const asked = new FormData(form);
    asked.set("deed", deed);
    try {
      const answer = await fetch(form.action, { method: "POST", body: new URLSearchParams(asked) });
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (answer.ok && page.querySelector("[data-part]")) this.#take(page);
      else this.#problem(page.querySelector("main .sheet p")?.textContent.trim() || this.dataset.failed);
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem;
      this.#problem(this.dataset.failed);
    } finally {
      this.removeAttribute("aria-busy");
    }
  }

  #take(page) {
    const held = this.#focused();
    const open = new Map([...this.querySelectorAll("[data-fold]")].map((fold) => [fold.dataset.fold, fold.open]));
    this.querySelector("[data-part]").replaceWith(page.querySelector("[data-part]"));
    for (const fold of this.querySelectorAll("[data-fold]")) fold.open = open.get(fold.dataset.fold) ?? fold.open;
    this.#ready();
    this.#focus(held);
    this.#problem("");
    this.querySelector("[data-live]").textContent = this.querySelector("[data-said]").textContent;
  }

  /** What has the focus, told so that it is found again, and the stop that it stands in. */
  #focused() {
    const active = this.contains(document.activeElement) ? document.activeElement : null;
    const stop = active?.closest("[data-at]");
    const list = [...this.querySelectorAll("[data-at]")];
    return { key: active?.dataset.key, stop: stop?.dataset.stop, place: stop ? list.indexOf(stop) : -1 };
  }

  /** The same thing again; else its stop; else the stop that now stands in its place; else undoing. */
  #focus({ key, stop, place }) {
    if (!key) return;
    const stops = [...this.querySelectorAll("[data-at]")];
    const same = stops.find((one) => one.dataset.stop === stop) ?? stops[Math.min(place, stops.length - 1)];
    const button = key.startsWith("grip ") ? null : this.querySelector(`[data-key="${CSS.escape(key)}"]`);
    (button ?? same?.querySelector("[data-grip]") ?? this.querySelector('[data-key="undo"]')).focus();
  }

  #problem(words) {
    const line = this.querySelector("[data-problem]");
    line.textContent = words;
    line.hidden = !words;
  }
}

customElements.define("tour-bench", TourBench);
