// What the times would close, asked for as they change: the very page that the form leads to, of which one part is taken.
const AFTER_MS = 350;

export class Looking extends EventTarget {
  constructor(form, place, address, say) {
    super();
    Object.assign(this, { form, place, address, say });
  }

  /** Look, once the hand rests. */
  soon() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.#look(), AFTER_MS);
  }

  /** The times name nothing that could be closed. */
  clear() {
    clearTimeout(this.timer);
    this.turn = (this.turn ?? 0) + 1;
    this.#put(null);
  }

  async #look() {
    const turn = (this.turn = (this.turn ?? 0) + 1);
    try {
      const answer = await fetch(this.address, { method: "POST", body: new URLSearchParams(new FormData(this.form)) });
      if (turn !== this.turn) return;
      if (answer.redirected) return this.say("signed-out");
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      this.#put(page.querySelector("[data-looked]"));
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem;
      this.say("offline");
    }
  }

  #put(looked) {
    this.place.replaceChildren(...(looked ? looked.childNodes : []));
    this.dispatchEvent(new Event("looked"));
  }
}
