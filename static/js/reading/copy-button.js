// <copy-button> around a button copies something and says so. `from` is the id of an element whose text it copies,
// "previous" for the citation above it, or "line" for the lasting address of the line it stands beside.

class CopyButton extends HTMLElement {
  connectedCallback() {
    this.hidden = false;
    this.addEventListener("click", () => this.#copy());
  }

  get text() {
    const from = this.getAttribute("from");
    if (from === "line") return this.closest(".line").querySelector(".line-time").href;
    const source = from === "previous" ? this.closest(".line-notes").querySelector(".citation") : document.getElementById(from);
    return source.textContent.trim();
  }

  async #copy() {
    if (navigator.clipboard) await navigator.clipboard.writeText(this.text);
    else this.#copyBySelection();
    this.#say(this.getAttribute("said"));
  }

  // Away from this computer without a secure line there is no clipboard to write to, only the old command.
  #copyBySelection() {
    const field = document.createElement("textarea");
    field.value = this.text;
    this.append(field);
    field.select();
    document.execCommand("copy");
    field.remove();
    this.querySelector("button").focus();
  }

  #say(words) {
    this.#status.textContent = "";
    requestAnimationFrame(() => (this.#status.textContent = words));
  }

  get #status() {
    let status = this.querySelector("[role=status]");
    if (!status) {
      status = document.createElement("span");
      status.setAttribute("role", "status");
      status.className = "copied";
      this.append(status);
    }
    return status;
  }
}

customElements.define("copy-button", CopyButton);

// A long transcript has too many lines for buttons at each: they come when a line's notes are first opened.
document.addEventListener(
  "toggle",
  ({ target }) => {
    const notes = target.matches(".line-side") && target.querySelector(".line-notes:not(:has(copy-button))");
    if (notes) notes.append(document.querySelector("template[data-copies]").content.cloneNode(true));
  },
  true,
);
