// Shows the print button where there is script to make it work.
class PrintButton extends HTMLElement {
  connectedCallback() {
    this.hidden = false;
    this.querySelector("button").addEventListener("click", () => window.print());
  }
}

customElements.define("print-button", PrintButton);
