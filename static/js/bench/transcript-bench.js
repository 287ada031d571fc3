// <transcript-bench>: a transcript mended by keyboard while it is heard. Everything else is a part of this.
import { Asking } from "./asking.js";
import { clock, exact } from "./clock.js";
import { speak, write } from "./deeds.js";
import { furnish } from "./furnish.js";
import { Keeping } from "./keeping.js";
import { Player } from "./player.js";
import { Rows } from "./rows.js";
import { Transcript } from "./transcript.js";
import { Wave } from "./wave.js";

class TranscriptBench extends HTMLElement {
  async connectedCallback() {
    const { bench, token, ref } = this.dataset;
    this.addresses = Object.fromEntries(["lines", "merged", "replacements", "suggestions", "ties", "closures", "state"].map((name) => [name, `${bench}/${name}`]));
    this.words = (name, values = {}) => this.#words(name, values);
    this.asking = new Asking(token, bench);
    this.known = { people: [], closures: [], ties: new Map() };
    this.transcript = new Transcript();
    this.player = new Player(this.querySelector("audio"));
    this.rows = new Rows(this.querySelector("[data-lines]"), this.transcript, this.known, this.words);
    this.wave = new Wave(this.querySelector("canvas"), this.dataset.levels, this.player);
    this.keeping = new Keeping(this.transcript, this.asking, this.addresses, ref);
    furnish(this);
    this.#listen();
    await this.#begin(await this.asking.get(this.dataset.transcript));
  }

  #listen() {
    const { rows, transcript, keeping, player } = this;
    this.addEventListener("keydown", (event) => this.#key(event));
    this.querySelector("[data-tools]").addEventListener("click", ({ target }) => this.doings[target.closest("[data-do]")?.dataset.do]?.());
    this.querySelector("[data-check]").addEventListener("click", () => this.#check());
    rows.addEventListener("wrote", ({ detail }) => write(transcript, rows.at, detail, { typing: true }));
    rows.addEventListener("speak", ({ detail }) => this.#speak(detail));
    rows.addEventListener("play", ({ detail }) => player.from(transcript.lines[transcript.at(detail)].start));
    for (const sign of ["chosen", "begun"]) rows.addEventListener(sign, () => this.#chosen());
    transcript.addEventListener("changed", () => this.#chosen());
    player.addEventListener("moved", () => this.#moved());
    player.audio.addEventListener("error", () => this.say("no-sound"));
    this.ties.addEventListener("changed", ({ detail }) => {
      rows.fill(detail);
      this.#chosen();
    });
    this.ties.addEventListener("told", ({ detail }) => this.tell(detail));
    keeping.addEventListener("state", ({ detail }) => this.#state(detail));
    keeping.addEventListener("choose", ({ detail }) => {
      this.busy(true);
      this.merging.show(detail);
      this.panels.open("merge");
    });
    keeping.addEventListener("merged", ({ detail }) => {
      const count = detail.parts.filter((part) => part.from === "theirs").length;
      this.say("merged", { who: detail.who, count });
    });
  }

  async #begin(told) {
    this.known.people = told.people;
    this.known.closures = told.closures;
    this.known.ties = new Map(Object.entries(told.ties).map(([key, ties]) => [Number(key), ties]));
    this.transcript.duration = told.duration;
    this.transcript.begin(told.lines);
    this.#checked(told.state);
    const back = await this.keeping.begin(told.version, this.transcript.lines);
    if (back) this.say("back-again");
    const asked = /^#line-(\d+)$/.exec(location.hash);
    const { lines } = this.transcript;
    if (lines.length) this.rows.choose(lines[Math.min(Number(asked?.[1] ?? 1), lines.length) - 1].id, { letter: 0 });
    this.toggleAttribute("data-ready", true);
  }

  #key(event) {
    const asks = event.key === "?" && !event.target.closest("textarea, input, select");
    const deed = this.keys.deedOf(event) || (asks && "keys");
    if (!deed || event.defaultPrevented || (this.keeping.choosing && deed !== "keys")) return;
    event.preventDefault();
    this.doings[deed]();
  }

  #speak({ speaker, label }) {
    speak(this.transcript, this.rows.at, speaker, label);
    this.rows.fill(this.rows.chosen);
    this.rows.box.focus();
  }

  #chosen() {
    const { at } = this.rows;
    const line = this.transcript.lines[at];
    if (!line) return;
    this.wave.show(line, this.transcript.lines.slice(Math.max(0, at - 1), at + 2).filter((each) => each !== line));
    this.ties.show(line);
    this.querySelector("[data-span]").textContent = `${exact(line.start)}–${exact(line.end)}`;
  }

  #moved() {
    this.querySelector("[data-now]").textContent = clock(this.player.now);
    this.querySelector("[data-rate]").textContent = `× ${this.player.rate}`;
    this.querySelector("[data-do=play]").setAttribute("aria-pressed", this.player.playing);
    this.rows.hear(this.transcript.lines[this.heardAt()]?.id);
  }

  /** The place of the last line that has begun by now. */
  heardAt() {
    return this.transcript.lines.findLastIndex((line) => line.start <= this.player.now + 20);
  }

  async #check() {
    if (!(await this.keeping.now())) return;
    const checked = this.dataset.state !== "checked";
    this.#checked((await this.asking.post(this.addresses.state, { checked })).state);
    this.say(checked ? "checked-now" : "draft-now");
  }

  #checked(state) {
    this.dataset.state = state;
    this.querySelector("[data-check]").textContent = this.words(state === "checked" ? "is-draft" : "is-checked");
    this.querySelector("[data-state-says]").textContent = this.words(`state-${state}`);
  }

  #state({ state, words }) {
    this.dataset.kept = state;
    const said = this.querySelector("[data-kept-says]");
    said.textContent = `${this.words(`kept-${state}`)} ${words}`.trim();
  }

  say(name, values) {
    this.tell(this.words(name, values));
  }

  tell(words) {
    this.querySelector("[data-live]").textContent = words;
  }

  /** While two people's changes wait to be chosen from, the lines stand still. */
  busy(waits) {
    this.querySelector(".bench-lines").inert = waits;
  }

  #words(name, values) {
    const said = this.querySelector(`[data-word="${name}"]`).textContent;
    return said.replace(/\{(\w+)\}/g, (_, each) => values[each] ?? "");
  }
}

customElements.define("transcript-bench", TranscriptBench);
