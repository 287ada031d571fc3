// <pack-keeper data-manifest data-worker data-scope data-words>: has this tour kept on the device, and says what is.
import { dayRead, filled } from "./wording.js";

const LOOK_AGAIN = 20000;

class PackKeeper extends HTMLElement {
  async connectedCallback() {
    this.words = JSON.parse(this.dataset.words);
    if (!("serviceWorker" in navigator)) return this.#say("keep_none", {});
    this.#say("keep_asks", {});
    const { worker, scope } = this.dataset;
    try {
      await navigator.serviceWorker.register(worker, { scope });
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem; // Out of reach: the worker that is there does the work.
    }
    addEventListener("online", () => this.keep());
    await this.keep();
  }

  /** Ask the worker to bring what is kept in step with what is allowed now, and say what came of it. */
  async keep() {
    const { active } = await navigator.serviceWorker.ready;
    const told = await new Promise((answered) => {
      const line = new MessageChannel();
      line.port1.onmessage = (event) => answered(event.data);
      active.postMessage({ keep: this.dataset.manifest }, [line.port2]);
    });
    this.#tell(told);
    clearTimeout(this.timer);
    if (told.state === "unreached") this.timer = setTimeout(() => this.keep(), LOOK_AGAIN);
  }

  #tell({ state, manifest, since, kept }) {
    const language = document.documentElement.lang;
    const values = manifest && {
      count: manifest.files.length,
      sounds: manifest.sounds,
      kept,
      since: new Date(since).toLocaleString(language, { dateStyle: "medium", timeStyle: "short" }),
      until: dayRead(manifest.until, language),
    };
    this.dataset.state = state;
    if (state === "refused") return this.#say("keep_refused", {});
    if (!manifest) return this.#say("keep_missing", {});
    if (state === "signed-out") return this.#say("keep_signed_out", values);
    if (state === "unreached") return this.#say("keep_unreached", values);
    this.#say(kept < manifest.files.length ? "keep_part" : "keep_done", values);
  }

  #say(name, values) {
    this.querySelector("[data-says]").textContent = filled(this.words[name], values);
  }
}

customElements.define("pack-keeper", PackKeeper);
