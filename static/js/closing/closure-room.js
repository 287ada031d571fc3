// <closure-room>: a passage is chosen by ear and eye, its edges are heard. Without script its forms and links do alone.
import { Player } from "../bench/player.js";
import { Edges } from "./edges.js";
import { Looking } from "./looking.js";
import { Stretch } from "./stretch.js";
import { nudged, put, read, written } from "./times.js";

const KEYS = { F2: "play", F4: "back", "Alt+Home": "start", "Alt+End": "end" };

class ClosureRoom extends HTMLElement {
  connectedCallback() {
    this.duration = Number(this.dataset.duration);
    this.form = this.querySelector("#closure");
    this.fields = [this.form.elements.start, this.form.elements.end];
    this.say = (name, values = {}) => (this.querySelector("[data-live]").textContent = this.#words(name, values));
    this.querySelector("[data-sound]").hidden = false;
    this.player = new Player(this.querySelector("[data-sound] audio"));
    this.stretch = new Stretch(this.querySelector("canvas"), this.dataset.levels, this.player, this.duration);
    this.looking = new Looking(this.form, this.querySelector("[data-looked]"), this.dataset.look, this.say);
    this.edges = new Edges(this, this.querySelector("[data-edge-sound]"), this.say);
    this.#listen();
    this.stretch.closed = [...this.querySelectorAll("[data-closed]")].map((each) => span(each.dataset.closed));
    this.#looked();
    this.#typed();
    const { start } = this.stretch.chosen ?? {};
    if (start !== undefined) this.player.goTo(start);
    this.toggleAttribute("data-ready", true);
  }

  #listen() {
    const { player, stretch, edges } = this;
    document.addEventListener("keydown", (event) => this.#key(event)); // Wherever one stands: a click leaves the focus nowhere.
    this.querySelector(".closing-keys").addEventListener("click", ({ target }) => this.#do(target.closest("[data-do]")?.dataset.do));
    for (const field of this.fields) nudged(field, this.duration);
    this.querySelector(".closing-times").addEventListener("input", () => {
      this.#typed();
      if (stretch.chosen) this.looking.soon();
      else this.looking.clear();
    });
    stretch.addEventListener("chosen", ({ detail }) => {
      put(this.fields[0], detail.start);
      put(this.fields[1], detail.end);
    });
    this.looking.addEventListener("looked", () => this.#looked());
    this.querySelector("[data-place]").addEventListener("input", ({ target }) => player.goTo(Number(target.value)));
    player.addEventListener("moved", () => this.#moved());
    player.audio.addEventListener("error", () => this.say("no-sound"));
    player.audio.addEventListener("play", () => edges.stop());
    edges.addEventListener("playing", () => player.audio.pause());
  }

  #key(event) {
    const deed = KEYS[`${event.altKey ? "Alt+" : ""}${event.key}`];
    if (event.key === "Escape") this.edges.stop();
    if (!deed || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    this.#do(deed);
  }

  #do(deed) {
    if (deed === "play") this.player.play();
    if (deed === "back") this.player.back();
    if (deed === "closer" || deed === "further") this.stretch.scale(deed === "closer" ? -1 : 1);
    if (deed !== "start" && deed !== "end") return;
    const now = Math.min(this.player.now, this.duration);
    put(this.fields[deed === "start" ? 0 : 1], now);
    this.say(`${deed}-now`, { time: written(now) });
  }

  /** The fields were written in: show what they name. */
  #typed() {
    const [start, end] = this.fields.map((field) => read(field.value));
    const sound = start !== null && end !== null && start < end && end <= this.duration;
    this.stretch.guard = null;
    this.stretch.choose(sound ? { start, end } : null);
  }

  #looked() {
    const told = this.querySelector("[data-masked]");
    this.stretch.guard = told ? span(told.dataset.masked) : null;
    this.stretch.draw();
  }

  #moved() {
    this.querySelector("[data-now]").textContent = written(this.player.now);
    this.querySelector("[data-place]").value = this.player.now;
    this.querySelector("[data-do=play]").setAttribute("aria-pressed", this.player.playing);
  }

  #words(name, values) {
    const said = this.querySelector(`[data-word="${name}"]`).textContent;
    return said.replace(/\{(\w+)\}/g, (_, each) => values[each] ?? "");
  }
}

function span(text) {
  const [start, end] = text.split("-").map(Number);
  return { start, end };
}

customElements.define("closure-room", ClosureRoom);
