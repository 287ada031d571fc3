// The lines of a transcript in order, found by time. A line is any element with data-start and data-end in milliseconds.

export class Lines {
  constructor(elements) {
    this.all = [...elements].map((element) => ({
      element,
      start: Number(element.dataset.start) / 1000,
      end: Number(element.dataset.end) / 1000,
    }));
  }

  /** The number of the last line that has begun at a time, or -1 before the first. */
  at(time) {
    let low = 0;
    let high = this.all.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      // A browser may land a hair before the start it was sent to.
      if (this.all[middle].start <= time + 0.02) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  /** The number of the line that is spoken at a time; short pauses belong to it, a long silence to none. */
  spokenAt(time, pause = 3) {
    const number = this.at(time);
    return number >= 0 && time < this.all[number].end + pause ? number : -1;
  }

  /** The line so many places on from the one at a time, kept within the first and the last. */
  from(time, places) {
    const number = Math.min(Math.max(this.at(time) + places, 0), this.all.length - 1);
    return this.all[number] ?? null;
  }

  /** The line that an element lies in. */
  around(element) {
    return this.all.find((line) => line.element.contains(element)) ?? null;
  }
}
