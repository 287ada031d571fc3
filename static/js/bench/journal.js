// What has not been sent yet lies in this browser, from the first letter on, and only until it is kept.
// First what it was made from, whole and once; then, at every letter, only the lines that differ.
export class Journal {
  constructor(name) {
    this.base = `lemel-bench:${name}:base`;
    this.mine = `lemel-bench:${name}:mine`;
  }

  write(version, kept, lines, rowOf) {
    if (this.version !== version) {
      localStorage.setItem(this.base, JSON.stringify({ version, rows: kept.map(rowOf) }));
      this.version = version;
    }
    let at = 0;
    while (at < kept.length && at < lines.length && kept[at] === lines[at]) at++;
    let tail = 0;
    while (tail < kept.length - at && tail < lines.length - at && kept.at(-1 - tail) === lines.at(-1 - tail)) tail++;
    const put = lines.slice(at, lines.length - tail).map(rowOf);
    localStorage.setItem(this.mine, JSON.stringify({ at, count: kept.length - at - tail, put }));
  }

  /** What was left unsent: { version, base, mine }, or null. */
  read() {
    const [base, mine] = [this.base, this.mine].map((place) => JSON.parse(localStorage.getItem(place)));
    if (!base || !mine) return null;
    return { version: base.version, base: base.rows, mine: base.rows.toSpliced(mine.at, mine.count, ...mine.put) };
  }

  clear() {
    localStorage.removeItem(this.mine);
    localStorage.removeItem(this.base);
    this.version = undefined;
  }
}
