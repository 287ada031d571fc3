// Starting a machine before visitors: each check confirmed, the run timed, and its line for the log kept on the device.
// Its facts stand in a script of type application/json. data-start and data-token: where the start is asked for, if the
// network is in reach. data-hand-in: where the run is handed in; without it the event "machine-run" carries the run, and
// whoever takes it says so by preventDefault(). "machine-started" tells of the start. data-outing: the outing's key.
import { ChecksForm } from "./running/checks-form.js";
import { KeptRun, ended, letGo, newKey, send, todayHere, zoned } from "./running/kept-run.js";
import { caution, dayRead, filled, list, make } from "./running/parts.js";
import { EndView, RunningView } from "./running/run-views.js";

class StartCheck extends HTMLElement {
  connectedCallback() {
    this.facts ??= JSON.parse(this.querySelector('script[type="application/json"]').textContent);
    this.kept ??= new KeptRun(this.facts.demonstration);
    this.back = () => this.handInAll();
    addEventListener("online", this.back);
    this.result = make("div", { role: "status", class: "run-result" });
    const run = this.kept.now;
    if (run?.stopped) this.stop(run, run.stopped);
    else if (run) this.showRunning(run);
    else this.showChecks();
    this.handInAll();
  }

  disconnectedCallback() {
    removeEventListener("online", this.back);
    this.view?.close?.();
  }

  get language() {
    return document.documentElement.lang || "en-GB";
  }

  // What stands in the way on this device's own day, which may be later than the day of the facts.
  get lacking() {
    const { lacking, until, words } = this.facts;
    if (lacking.length || until >= todayHere()) return lacking;
    return [filled(words.ranOut, { day: dayRead(until, this.language) })];
  }

  show(view) {
    this.view?.close?.();
    this.view = view;
    this.replaceChildren(this.result, view.node);
    view.heading?.focus();
  }

  showChecks() {
    const { words, operators, day } = this.facts;
    const today = todayHere();
    const lacking = this.lacking;
    if (lacking.length) {
      this.show({ node: caution(words.mayNot, [...lacking, words.renews]) });
      return;
    }
    const named = operators.filter((each) => each.until >= today);
    this.form = new ChecksForm(this.facts, named, (operator, confirmed) => this.start(operator, confirmed));
    this.show(this.form);
    if (day !== today) this.form.refuse(make("p", {}, filled(words.older, { day: dayRead(day, this.language) })));
  }

  async start(operator, confirmed) {
    const { machine, demonstration, words } = this.facts;
    if (this.lacking.length) return this.showChecks();
    if (this.asking) return undefined; // A second press while the first is asked for.
    this.asking = true;
    const outing = this.dataset.outing ?? "";
    const started_at = zoned(new Date());
    const run = { key: newKey(), machine, demonstration, operator, started_at, minutes: null, confirmed, faults: "", outing };
    this.form.wait();
    const answer = this.dataset.start ? await send(this.dataset.start, this.dataset.token, run) : null;
    this.asking = false;
    if (answer && !answer.ok) return this.form.refuse(...this.refusal(words.refused, answer));
    this.result.replaceChildren();
    this.kept.begin(run);
    this.dispatchEvent(new CustomEvent("machine-started", { bubbles: true, detail: run }));
    this.showRunning(run);
    if (!answer) this.view.note.textContent = words.offline;
    return undefined;
  }

  refusal(heading, answer) {
    const { words } = this.facts;
    if (answer.signedOut) return [make("p", {}, words.signedOut)];
    if (answer.broken) return [make("p", {}, words.broken)];
    return [make("p", {}, make("strong", {}, heading)), list(answer.lacking ?? answer.faults ?? [])];
  }

  showRunning(run) {
    this.show(new RunningView(this.facts, run, (minutes) => this.stop(run, minutes)));
  }

  stop(run, minutes) {
    this.kept.begin({ ...run, stopped: minutes }); // So that a page that is loaded again asks for the faults still.
    this.show(new EndView(this.facts, minutes, (corrected, faults) => this.end(run, corrected, faults)));
  }

  end(run, minutes, faults) {
    const { stopped: _asked, ...ran } = run;
    this.kept.end({ ...ran, minutes, faults });
    this.showChecks();
    return this.handInAll();
  }

  async handInAll() {
    for (const run of ended()) await this.handIn(run);
  }

  async handIn(run) {
    const { words } = this.facts;
    if (!this.dataset.handIn) {
      const told = new CustomEvent("machine-run", { bubbles: true, cancelable: true, detail: run });
      if (!this.dispatchEvent(told)) letGo(run.key);
      return this.say(words.kept);
    }
    const answer = await send(this.dataset.handIn, this.dataset.token, run);
    if (!answer) return this.say(words.kept);
    if (!answer.ok) return this.result.replaceChildren(...this.refusal(words.notTaken, answer));
    letGo(run.key);
    if (answer.lapsed.length) return this.result.replaceChildren(caution(words.lapsed, answer.lapsed));
    return this.say(words.written);
  }

  say(words) {
    this.result.replaceChildren(make("p", { class: "run-state run-state--may" }, words));
  }
}

customElements.define("start-check", StartCheck);
