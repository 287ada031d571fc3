// <copy-button> around a button: copies the text of an element (`from` is its id, or "previous" for the citation
// beside it) or an address (`link`), and says so. It stays hidden without script.

class CopyButton extends HTMLElement {
  connectedCallback() {
    this.hidden = false;
    this.addEventListener("click", () => this.#copy());
  }

  get text() {
    if (this.hasAttribute("link")) return new URL(this.getAttribute("link"), location.href).href;
    return this.#source.textContent.trim();
  }

  get #source() {
    const from = this.getAttribute("from");
    return from === "previous" ? this.parentElement.parentElement.querySelector(".citation") : document.getElementById(from);
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
