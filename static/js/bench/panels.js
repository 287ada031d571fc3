// The sheets beside the lines: one is open at a time, none stands in the way of the lines.
export class Panels {
  constructor(room, back) {
    this.back = back;
    this.all = [...room.querySelectorAll("[data-panel]")];
    for (const panel of this.all) panel.addEventListener("keydown", (event) => this.#key(event, panel));
    room.addEventListener("click", ({ target }) => target.closest("[data-shut]") && this.shut());
  }

  open(name) {
    for (const panel of this.all) panel.hidden = panel.dataset.panel !== name;
    const panel = this.all.find((each) => each.dataset.panel === name);
    panel.scrollIntoView({ block: "nearest" });
    (panel.querySelector("input, select, [data-first]") ?? panel.querySelector("button")).focus();
    return panel;
  }

  shut() {
    for (const panel of this.all) panel.hidden = true;
    this.back();
  }

  isOpen(name) {
    return !this.all.find((each) => each.dataset.panel === name).hidden;
  }

  #key(event, panel) {
    if (event.key !== "Escape" || "stays" in panel.dataset || event.defaultPrevented) return;
    event.preventDefault();
    this.shut();
  }
}

/** An element with a class, attributes and what stands in it. */
export function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...inside.filter((each) => each !== null));
  return element;
}

/** A text in pieces, each of which says whether it is the same, gone or added. */
export function inPieces(pieces) {
  return pieces.map(([kind, text]) => (kind === "same" ? text : make(kind === "gone" ? "del" : "ins", {}, text)));
}
