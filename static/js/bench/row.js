// One row of the page, written from its line; the chosen one has a box to write in.
import { clock } from "./clock.js";

export class RowWriter {
  constructor(known, transcript, speakers, words) {
    Object.assign(this, { known, transcript, speakers, words });
  }

  make(line) {
    const row = document.getElementById("mend-row").content.firstElementChild.cloneNode(true);
    row.dataset.id = line.id;
    return row;
  }

  write(row, line, own) {
    const closed = this.known.closures.some(({ masked: [from, to] }) => from < line.end && to > line.start);
    row.classList.toggle("mend--chosen", own);
    row.classList.toggle("mend--doubtful", line.doubtful);
    row.classList.toggle("mend--closed", closed);
    row.querySelector(".mend-time").textContent = clock(line.start);
    const who = row.querySelector(".mend-who");
    if (own) this.speakers.offer(who, line, this.transcript.lines);
    else who.textContent = this.speakers.nameOf(line);
    row.querySelector(".mend-marks").textContent = this.#marks(line, closed);
    this.#text(row, line, own);
  }

  #text(row, line, own) {
    const said = row.querySelector(".mend-said");
    let box = said.querySelector("textarea");
    if (!own) return said.replaceChildren(line.text || this.words("empty"));
    if (!box) {
      box = document.createElement("textarea");
      box.rows = 1;
      box.spellcheck = true;
      said.replaceChildren(box);
    }
    box.setAttribute("aria-label", this.words("words-of", { time: clock(line.start), who: this.speakers.nameOf(line) }));
    if (box.value !== line.text) box.value = line.text;
    this.fit(box);
  }

  #marks(line, closed) {
    const sure = !line.confidence ? "" : ` ${Math.round(line.confidence * 100)} %`;
    const tied = this.known.ties.get(this.transcript.segments.get(line.id))?.length ?? 0;
    const marks = [closed && this.words("closed"), line.doubtful && this.words("doubtful") + sure, tied && this.words("tied", { count: tied })];
    return marks.filter(Boolean).join(" · ");
  }

  /** As high as its words, where the browser does not see to that itself. */
  fit(box) {
    if (CSS.supports("field-sizing", "content")) return;
    box.style.height = "auto";
    box.style.height = `${box.scrollHeight}px`;
  }
}
