// The log of a tour that is given from a pack on a disk: in the browser's local storage, and saved as a file.

const PLACE = "lemel-outing ";
const STILL_GOING = 12 * 3600 * 1000;

function fileKey() {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

export async function openFileLog() {
  return new FileLog();
}

class FileLog {
  constructor() {
    this.held = new Map();
    this.lasting = true;
    try {
      for (const name of Object.keys(localStorage).filter((each) => each.startsWith(PLACE))) {
        const kept = JSON.parse(localStorage.getItem(name));
        this.held.set(kept.outing.key, kept);
      }
    } catch (problem) {
      if (!(problem instanceof DOMException)) throw problem;
      this.lasting = false; // This browser keeps nothing for files; the page says so.
    }
  }

  #keep(kept) {
    this.held.set(kept.outing.key, kept);
    if (this.lasting) localStorage.setItem(PLACE + kept.outing.key, JSON.stringify(kept));
  }

  async going(tour, now = Date.now()) {
    const mine = [...this.held.values()].map((kept) => kept.outing);
    const going = mine.filter((each) => each.tour === tour && !each.over && now - each.began < STILL_GOING);
    return going.sort((one, other) => other.began - one.began)[0];
  }

  async begin(outing, now = Date.now()) {
    const fresh = { ...outing, key: fileKey(), began: now, over: false };
    this.#keep({ outing: fresh, lines: [] });
    return fresh;
  }

  async end(key) {
    const kept = this.held.get(key);
    this.#keep({ ...kept, outing: { ...kept.outing, over: true } });
  }

  async write(line) {
    const kept = this.held.get(line.outing);
    if (kept.lines.some((each) => each.key === line.key)) return false;
    this.#keep({ ...kept, lines: [...kept.lines, { taken_back: false, ...line }] });
    return true;
  }

  async takeBack(key) {
    for (const kept of this.held.values()) {
      const lines = kept.lines.map((line) => (line.key === key ? { ...line, taken_back: true, text: "" } : line));
      this.#keep({ ...kept, lines });
    }
  }

  async lines(outing) {
    return this.held.get(outing)?.lines ?? [];
  }

  /** Every outing of this device, for the file. */
  all() {
    return [...this.held.values()];
  }
}
