// <back-to-plan data-to data-after data-warn>: goes back to the plan when nobody has touched the kiosk for a while.
// It warns in the last seconds; any touch, key, scroll or playing voice stops it.
const SIGNS = ["pointerdown", "pointermove", "keydown", "wheel", "scroll", "input", "play"];

class BackToPlan extends HTMLElement {
  connectedCallback() {
    this.after = Number(this.dataset.after) * 1000;
    this.warn = Number(this.dataset.warn) * 1000;
    this.notice = this.querySelector(".leaving");
    if (!this.notice || !(this.after > 0)) return;
    this.stay = () => this.#stay();
    for (const sign of SIGNS) addEventListener(sign, this.stay, { capture: true, passive: true });
    this.#stay();
    this.timer = setInterval(() => this.#look(), 250);
  }

  disconnectedCallback() {
    clearInterval(this.timer);
    for (const sign of SIGNS) removeEventListener(sign, this.stay, { capture: true });
  }

  #stay() {
    this.since = performance.now();
    this.notice.hidden = true;
  }

  #look() {
    if (voiceIsPlaying()) return this.#stay();
    const left = this.after - (performance.now() - this.since);
    if (left <= 0) return this.#leave();
    if (left <= this.warn) {
      this.notice.querySelector(".leaving__seconds").textContent = Math.ceil(left / 1000);
      this.notice.hidden = false;
    }
  }

  #leave() {
    clearInterval(this.timer);
    forgetVisit();
    const there = new URL(this.dataset.to, location.href);
    if (location.pathname + location.search === there.pathname && scrollY === 0) return this.#rest();
    location.assign(there);
  }

  // Already on an untouched plan: nothing to load, only wait for the next visitor.
  #rest() {
    this.notice.hidden = true;
    dispatchEvent(new CustomEvent("visit-over"));
    addEventListener("pointerdown", () => this.connectedCallback(), { once: true });
  }
}

function voiceIsPlaying() {
  return [...document.querySelectorAll("audio")].some((audio) => !audio.paused && !audio.ended);
}

function forgetVisit() {
  sessionStorage.removeItem("visited-checks");
}

customElements.define("back-to-plan", BackToPlan);
