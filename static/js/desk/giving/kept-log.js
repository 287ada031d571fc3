// The log of outings in the browser's database: what is written is on the disk before anything is shown.
// Several tabs share it, so every deed is one transaction that looks before it writes.

const NAME = "lemel-outings";
const STILL_GOING = 12 * 3600 * 1000;

function asked(request) {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });
}

/** A key that no other device makes. Works without a secure address, unlike randomUUID. */
export function newKey() {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function opened() {
  const request = indexedDB.open(NAME, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore("outings", { keyPath: "key" });
    request.result.createObjectStore("lines", { keyPath: "key" }).createIndex("outing", "outing");
  };
  return asked(request);
}

export async function openKeptLog() {
  return new KeptLog(await opened());
}

class KeptLog {
  constructor(database) {
    this.database = database;
    // A newer version of this app may want to change the database: this tab lets go of it.
    database.onversionchange = () => database.close();
  }

  #deed(mode, work) {
    const deed = this.database.transaction(["outings", "lines"], mode, { durability: "strict" });
    const done = new Promise((kept, failed) => {
      deed.oncomplete = () => kept();
      deed.onabort = () => failed(deed.error);
    });
    return Promise.all([work(deed.objectStore("outings"), deed.objectStore("lines")), done]).then(([result]) => result);
  }

  /** The outing of a tour that is still going on: begun within half a day and not finished. */
  going(tour, now = Date.now()) {
    return this.#deed("readonly", (outings) => this.#going(outings, tour, now));
  }

  async #going(outings, tour, now) {
    const all = await asked(outings.getAll());
    const mine = all.filter((each) => each.tour === tour && !each.over && now - each.began < STILL_GOING);
    return mine.sort((one, other) => other.began - one.began)[0];
  }

  /** Begin an outing, unless another tab has just begun one. */
  begin(outing, now = Date.now()) {
    return this.#deed("readwrite", async (outings) => {
      const there = await this.#going(outings, outing.tour, now);
      if (there) return there;
      const fresh = { ...outing, key: newKey(), began: now, over: false, handed: false };
      await asked(outings.add(fresh));
      return fresh;
    });
  }

  end(key) {
    return this.#deed("readwrite", async (outings) => {
      const outing = await asked(outings.get(key));
      if (outing) await asked(outings.put({ ...outing, over: true }));
    });
  }

  /** Write a line, once: a step that another tab has written already is not written again. */
  write(line) {
    return this.#deed("readwrite", async (_outings, lines) => {
      const there = await asked(lines.get(line.key));
      if (!there) await asked(lines.add({ taken_back: false, handed: false, ...line }));
      return !there;
    });
  }

  takeBack(key) {
    return this.#deed("readwrite", async (_outings, lines) => {
      const line = await asked(lines.get(key));
      if (line && !line.taken_back) await asked(lines.put({ ...line, taken_back: true, text: "", handed: false }));
    });
  }

  lines(outing) {
    return this.#deed("readonly", (_outings, lines) => asked(lines.index("outing").getAll(outing)));
  }

  /** Every outing with lines that have not been handed in, each with those lines. */
  waiting() {
    return this.#deed("readonly", async (outings, lines) => {
      const [all, every] = await Promise.all([asked(outings.getAll()), asked(lines.getAll())]);
      const told = all.map((outing) => ({ outing, lines: every.filter((line) => line.outing === outing.key && !line.handed) }));
      return told.filter((each) => each.lines.length);
    });
  }

  /** Mark what was handed in; a line that was taken back meanwhile still waits. Then let go of what is done with. */
  handedIn(sent) {
    return this.#deed("readwrite", async (outings, lines) => {
      for (const line of sent) {
        const now = await asked(lines.get(line.key));
        if (now && now.taken_back === line.taken_back) await asked(lines.put({ ...now, handed: true }));
      }
      await this.#forget(outings, lines);
    });
  }

  async #forget(outings, lines, now = Date.now()) {
    const every = await asked(lines.getAll());
    for (const outing of await asked(outings.getAll())) {
      const mine = every.filter((line) => line.outing === outing.key);
      const done = now - outing.began > 2 * STILL_GOING && mine.every((line) => line.handed);
      if (done) for (const line of mine) lines.delete(line.key);
      if (done) outings.delete(outing.key);
    }
  }
}
