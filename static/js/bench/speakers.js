// Who speaks: shown as names, chosen from those who speak here, those who are known, or as a name of its own.
const OTHER = "other";
const value = (line) => (line.speaker ? `p:${line.speaker}` : `l:${line.label}`);

export class Speakers {
  constructor(known, words) {
    Object.assign(this, { known, words });
  }

  nameOf(line) {
    return this.known.people.find((each) => each.ref === line.speaker)?.name ?? (line.label || this.words("nobody"));
  }

  /** Those who speak in the transcript, as { speaker, label }, in the order in which they first do. */
  here(lines) {
    const seen = new Map();
    for (const line of lines) if (line.speaker || line.label) seen.set(value(line), { speaker: line.speaker, label: line.label });
    for (const each of this.known.people) if (each.here) seen.set(`p:${each.ref}`, { speaker: each.ref, label: "" });
    return seen;
  }

  offer(cell, line, lines) {
    if (cell.querySelector("select")?.dataset.value === value(line)) return;
    const select = document.createElement("select");
    select.className = "mend-speaker";
    select.dataset.value = value(line);
    select.setAttribute("aria-label", this.words("who-speaks"));
    const here = this.here([line, ...lines]);
    for (const [key, who] of here) select.append(new Option(this.nameOf(who), key));
    if (!line.speaker && !line.label) select.append(new Option(this.words("nobody"), "l:"));
    for (const each of this.known.people) if (!here.has(`p:${each.ref}`)) select.append(new Option(each.name, `p:${each.ref}`));
    select.append(new Option(this.words("somebody-else"), OTHER));
    select.value = value(line);
    cell.replaceChildren(select);
  }

  /** Somebody was chosen, or a name was written. */
  chosen({ target }, speak) {
    if (target.matches(".mend-named")) {
      if (target.value.trim()) speak({ speaker: "", label: target.value.trim().slice(0, 200) });
    } else if (target.value === OTHER) {
      this.#write(target);
    } else if (target.matches(".mend-speaker")) {
      const name = target.value.slice(2);
      speak(target.value.startsWith("p:") ? { speaker: name, label: "" } : { speaker: "", label: name });
    }
  }

  #write(select) {
    const box = document.createElement("input");
    box.className = "mend-named";
    box.maxLength = 200;
    box.setAttribute("aria-label", this.words("name-of-speaker"));
    select.replaceWith(box);
    box.focus();
  }

  /** The next of those who speak here. */
  after(line, lines) {
    const all = [...this.here(lines)];
    const at = all.findIndex(([key]) => key === value(line));
    return all.length > 1 ? all[(at + 1) % all.length][1] : null;
  }
}
