// <hand-in data-address data-token data-words>: hands logs in when the network is there: each line once, nothing lost.
// Lines stay on the device until the Desk has said that it has them.
import { filled } from "./wording.js";
import { openKeptLog } from "./kept-log.js";
import { asSent } from "./sending.js";

// When the network comes back it may take a moment to carry anything.
const SOON = 1000;
const LATEST = 30000;

class HandIn extends HTMLElement {
  async connectedCallback() {
    this.words = JSON.parse(this.dataset.words);
    this.log = await openKeptLog();
    this.querySelector("[data-now]")?.addEventListener("click", () => this.handIn());
    this.wait = SOON;
    addEventListener("online", () => {
      this.wait = SOON;
      this.handIn();
    });
    document.addEventListener("log-written", () => this.soon());
    document.addEventListener("visibilitychange", () => document.hidden || this.handIn());
    await this.handIn();
  }

  soon() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.handIn(), 1500);
  }

  /** Hand in all that waits; of several tabs one at a time where the browser can arrange that. */
  async handIn() {
    clearTimeout(this.timer);
    const work = () => this.#handInAll();
    await (navigator.locks ? navigator.locks.request("lemel-hand-in", work) : work());
  }

  async #handInAll() {
    const waiting = await this.log.waiting();
    if (!waiting.length) return this.#say(this.address ? "hand_done" : "", 0);
    const count = waiting.reduce((sum, each) => sum + each.lines.length, 0);
    const said = await this.#try(waiting);
    this.#say(said, count);
    this.wait = said === "hand_unreached" ? Math.min(LATEST, this.wait * 2) : SOON;
    if (said === "hand_unreached") this.timer = setTimeout(() => this.handIn(), this.wait);
  }

  async #try(waiting) {
    try {
      // The page may have stood open for hours: the token is asked for anew each time.
      const asked = await fetch(this.dataset.token, { redirect: "manual", cache: "no-store" });
      if (asked.type === "opaqueredirect") return "hand_signed_out";
      if (!asked.ok) return "hand_refused";
      const { token } = await asked.json();
      for (const { outing, lines } of waiting) {
        const answer = await this.#send(asSent(outing, lines), token);
        if (answer.type === "opaqueredirect") return "hand_signed_out";
        if (!answer.ok) return "hand_refused";
        this.address = (await answer.json()).address;
        await this.log.handedIn(lines);
      }
      return "hand_done";
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem;
      return "hand_unreached"; // What fetch raises when the network is gone.
    }
  }

  #send(log, token) {
    return fetch(this.dataset.address, {
      method: "POST",
      redirect: "manual",
      headers: { "Content-Type": "application/json", "X-CSRFToken": token },
      body: JSON.stringify(log),
    });
  }

  #say(name, count) {
    this.querySelector("[data-says]").textContent = name ? filled(this.words[name], { count }) : "";
    this.#show("[data-sign-in]", name === "hand_signed_out");
    this.#show("[data-now]", name !== "" && name !== "hand_done");
    this.#show("[data-look]", name === "hand_done" && this.address);
    this.dataset.state = name;
    if (this.address) this.querySelector("[data-look]")?.setAttribute("href", this.address);
    this.dispatchEvent(new CustomEvent("handed-in", { bubbles: true, detail: name }));
  }

  #show(part, shown) {
    const found = this.querySelector(part);
    if (found) found.hidden = !shown;
  }
}

customElements.define("hand-in", HandIn);
