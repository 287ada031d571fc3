// The list of keys: seen and changed without a mouse.
import { chord, writes } from "./keys.js";

const ARROWS = { ArrowUp: "↑", ArrowDown: "↓", ArrowLeft: "←", ArrowRight: "→" };
const shown = (keys) => keys.replace(/Arrow\w+/, (name) => ARROWS[name] ?? name);

export class KeyList {
  constructor(panel, keys, words) {
    Object.assign(this, { panel, keys, words });
    this.told = panel.querySelector("[data-told]");
    this.rows = [...panel.querySelectorAll("[data-deed]")];
    panel.addEventListener("click", ({ target }) => this.#press(target));
    panel.addEventListener("keydown", (event) => this.#key(event), true);
    this.show();
  }

  show() {
    for (const row of this.rows) row.querySelector("kbd").textContent = shown(this.keys.of(row.dataset.deed)) || this.words("no-keys");
  }

  #press(target) {
    if (target.closest("[data-as-first]")) {
      this.keys.asFirst();
      this.told.textContent = this.words("as-first");
      return this.show();
    }
    const row = target.closest("[data-change]")?.closest("[data-deed]");
    if (!row) return;
    this.waits = row;
    this.told.textContent = this.words("press-keys", { deed: row.dataset.words });
  }

  #key(event) {
    if (!this.waits) return;
    const keys = chord(event);
    if (!keys || event.key === "Tab") return;
    event.preventDefault();
    event.stopPropagation();
    const row = this.waits;
    if (event.key !== "Escape" && writes(keys)) {
      this.told.textContent = this.words("keys-write", { keys });
      return;
    }
    this.waits = null;
    if (event.key === "Escape") {
      this.told.textContent = this.words("keys-left");
      return;
    }
    const robbed = this.keys.change(row.dataset.deed, keys);
    const other = this.rows.find((each) => each.dataset.deed === robbed);
    this.told.textContent = other ? this.words("keys-taken", { keys, deed: other.dataset.words }) : this.words("keys-changed", { keys });
    this.show();
  }
}
