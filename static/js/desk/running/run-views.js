// The run: elapsed minutes with stop in reach, and what is asked at the end.
import { caution, filled, list, make } from "./parts.js";

export class RunningView {
  constructor(facts, run, stop) {
    const { words } = facts;
    this.began = Date.parse(run.started_at);
    this.clock = make("p", { class: "run-clock", role: "timer", "aria-label": words.elapsed });
    this.button = make("button", { class: "button run-stop", type: "button", on: { click: () => stop(this.minutes) } }, words.stop);
    this.note = make("p", { role: "status" });
    this.heading = make("h3", { tabindex: "-1" }, words.running);
    this.node = make(
      "div",
      { class: "run-on" },
      this.heading,
      this.clock,
      make("p", { class: "quiet" }, filled(words.planned, { minutes: facts.minutes })),
      this.note,
      caution(words.cautions, facts.cautions),
      make("h3", {}, words.steps),
      list(facts.steps, "ol"),
      make("div", { class: "run-go" }, this.button),
    );
    this.tick();
    this.ticking = setInterval(() => this.tick(), 1000);
  }

  get minutes() {
    return Math.max(0.1, Math.round((Date.now() - this.began) / 6000) / 10);
  }

  tick() {
    const seconds = Math.max(0, Math.floor((Date.now() - this.began) / 1000));
    this.clock.textContent = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  }

  close() {
    clearInterval(this.ticking);
  }
}

export class EndView {
  constructor(facts, minutes, write) {
    const { words } = facts;
    this.heading = make("h3", { tabindex: "-1" }, words.ended);
    this.minutes = make("input", { id: "run-minutes", type: "number", min: "0", max: "1440", step: "0.1", value: minutes, required: true });
    this.faults = make("textarea", { id: "run-faults", rows: "4", maxlength: "4000", "aria-describedby": "run-faults-help" });
    const submit = (event) => {
      event.preventDefault();
      write(this.minutes.valueAsNumber, this.faults.value.trim());
    };
    this.node = make(
      "form",
      { class: "run-end form", on: { submit } },
      this.heading,
      make("div", { class: "field" }, make("label", { for: "run-minutes" }, words.minutes), this.minutes),
      make(
        "div",
        { class: "field" },
        make("label", { for: "run-faults" }, words.faults),
        this.faults,
        make("p", { class: "help", id: "run-faults-help" }, words.faultsHelp),
      ),
      make("button", { class: "button run-start", type: "submit" }, words.write),
    );
  }
}
