// <tour-giving data-plan data-words>: gives a tour: one big button for each step, the clock, what to drop, the log.
// The state is worked out anew from the log each time, so a page that was killed comes back where it was.
import { clockOf, filled, today } from "./wording.js";
import { counting, progress, stillToCome } from "./progress.js";
import { goWords, showPace, showStops } from "./display.js";
import { showDrops } from "./drop-panel.js";
import { LogForm } from "./log-form.js";

const EVERY = 1000;

export class TourGiving extends HTMLElement {
  static openLog;

  async connectedCallback() {
    this.plan = JSON.parse(this.dataset.plan);
    this.words = JSON.parse(this.dataset.words);
    this.stops = [...this.querySelectorAll("[data-stop]")];
    this.lines = [];
    if (!this.plan.stops.length) return;
    try {
      this.log = await TourGiving.openLog();
    } catch (problem) {
      if (!(problem instanceof DOMException)) throw problem;
      this.part("pace").textContent = filled(this.words.log_fails, { problem: problem.message });
      return; // The tour stands there to be read, whole.
    }
    this.form = new LogForm(this);
    // The second click of a double one is the thumb's, not the guide's.
    this.part("go").addEventListener("click", (event) => event.detail > 1 || this.#go());
    this.part("back").addEventListener("click", () => this.#back());
    this.addEventListener("click", (event) => this.#mark(event.target.closest("[data-mark]")));
    // Another tab on this device may be giving the same tour.
    this.channel = new BroadcastChannel("lemel-outings");
    this.channel.onmessage = () => this.read();
    document.addEventListener("visibilitychange", () => this.#stayAwake());
    this.classList.add("is-live");
    await this.read();
    setInterval(() => this.show(), EVERY);
  }

  part(name) {
    return this.querySelector(`[data-${name}]`);
  }

  async read() {
    this.outing = this.over ? this.outing : await this.log.going(this.plan.tour);
    this.lines = this.outing ? await this.log.lines(this.outing.key) : [];
    this.show();
  }

  get state() {
    return progress(this.plan, this.lines, Date.now());
  }

  /** Write a line of the log. A step has a key of its own place in the tour, so that two tabs write it once. */
  async write(kind, more = {}, place = crypto.getRandomValues(new Uint32Array(2)).join("")) {
    const backs = this.lines.filter((line) => line.taken_back).length;
    const key = `${this.outing.key}.${place.slice(0, 16)}.${backs}`.toLowerCase();
    const station = this.plan.stops[this.state.at].station;
    const moment = Date.now();
    const line = { key, outing: this.outing.key, moment, step: this.lines.length, kind, station, telling: "", text: "", ...more };
    await this.log.write(line);
    await this.#written();
  }

  async #written() {
    await this.read();
    this.channel.postMessage("written");
    document.dispatchEvent(new CustomEvent("log-written"));
  }

  async #go() {
    const { phase, at } = this.state;
    const last = at === this.stops.length - 1;
    if (phase === "over" || this.over) return this.#again();
    if (phase === "before") await this.#start();
    else if (phase === "walking") await this.write("arrived", {}, `a${at}`);
    else await this.write("left", {}, `l${at}`);
    if (phase === "standing" && last) await this.#finish();
    this.#bringUp();
  }

  async #start() {
    const group_size = Math.min(500, Math.max(1, Math.round(Number(this.part("group").value)) || 1));
    const { tour, guide, planned } = this.plan;
    this.outing = await this.log.begin({ tour, guide, planned, group_size, given_on: today() });
    this.lines = await this.log.lines(this.outing.key);
    await this.write("started", {}, "s");
    if (this.plan.stops[0].walk < 0.2 && this.state.phase === "walking") await this.write("arrived", {}, "a0");
    await this.#stayAwake();
  }

  async #finish() {
    await this.write("finished", {}, "f");
    this.over = true;
    await this.log.end(this.outing.key);
    document.dispatchEvent(new CustomEvent("log-written"));
  }

  async #again() {
    this.over = false;
    this.outing = undefined;
    await this.read();
    this.#bringUp();
  }

  /** Take the last step back: a slip of the thumb is no arrival. */
  async #back() {
    const steps = counting(this.lines).filter((line) => ["started", "arrived", "left"].includes(line.kind));
    if (!steps.length || this.over) return;
    await this.log.takeBack(steps.at(-1).key);
    this.part("said").textContent = this.words.taken_back;
    await this.#written();
    this.#bringUp();
  }

  async #mark(button) {
    if (!button || !this.outing) return;
    const telling = button.closest("[data-telling]").dataset.telling;
    const already = button.getAttribute("aria-pressed") === "true";
    await this.mark(telling, already ? (button.dataset.mark === "told" ? "dropped" : "told") : button.dataset.mark);
  }

  mark(telling, kind) {
    const stop = this.plan.stops.find((each) => each.tellings.some((one) => one.ref === telling));
    return this.write(kind, { telling, station: stop.station });
  }

  #bringUp() {
    const { phase, at } = this.state;
    if (phase === "standing" || phase === "walking") this.stops[at].scrollIntoView({ block: "start" });
    this.part("go").focus({ preventScroll: true });
  }

  show() {
    const state = this.state;
    this.dataset.phase = state.phase;
    for (const check of this.querySelectorAll("start-check")) check.dataset.outing = this.outing?.key ?? "";
    this.part("clock").textContent = clockOf(Date.now());
    this.part("begin").hidden = state.phase !== "before";
    this.part("back").hidden = !["standing", "walking"].includes(state.phase);
    showStops(this, state);
    showPace(this, state);
    this.form.show(state.phase === "before" ? [] : this.lines, state.phase !== "before");
    showDrops(this, state, stillToCome(this.plan, state));
    this.part("go").textContent = goWords(this, state);
    this.part("go").hidden = false;
  }

  async #stayAwake() {
    const live = this.state.phase === "standing" || this.state.phase === "walking";
    if (!navigator.wakeLock || document.hidden || !live) return;
    try {
      this.awake = await navigator.wakeLock.request("screen");
    } catch (problem) {
      if (problem.name !== "NotAllowedError") throw problem; // A battery that runs low may say no.
    }
  }
}
