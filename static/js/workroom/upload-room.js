// The room where files are sent: several at once, a bar for each, and on again with what broke off.
import { Refused, Sending } from "./sending.js";

const AT_ONCE = 3;

class UploadRoom extends HTMLElement {
  connectedCallback() {
    this.words = JSON.parse(this.querySelector('script[type="application/json"]').textContent);
    this.form = this.querySelector("form");
    this.list = this.querySelector(".arrivals--now");
    this.waiting = [];
    this.busy = 0;
    this.form.addEventListener("submit", (event) => this.start(event));
    this.leaving = (event) => this.busy && event.preventDefault();
    addEventListener("beforeunload", this.leaving);
  }

  disconnectedCallback() {
    removeEventListener("beforeunload", this.leaving);
  }

  start(event) {
    event.preventDefault();
    const interview = this.form.elements.interview.value;
    const files = [...this.form.elements.file.files];
    this.fault(interview && files.length ? "" : this.words.none);
    if (!interview || !files.length) return;
    for (const file of files) this.waiting.push({ file, interview, line: this.line(file) });
    this.form.elements.file.value = "";
    this.next();
  }

  next() {
    while (this.busy < AT_ONCE && this.waiting.length) this.send(this.waiting.shift());
  }

  async send({ file, interview, line }) {
    this.busy += 1;
    const sending = new Sending(this, file, interview, (now) => this.show(line, file, now));
    try {
      const known = this.broken(file, interview);
      known?.element.remove();
      this.ended(line, await sending.send(known));
    } catch (problem) {
      if (!(problem instanceof Refused)) throw problem;
      line.says.textContent = problem.message;
      line.node.dataset.state = "refused";
    } finally {
      this.busy -= 1;
      this.next();
    }
  }

  // What had arrived of the same file before the page was loaded.
  broken(file, interview) {
    const lines = document.querySelectorAll('.arrival[data-state="arriving"][data-key]');
    const element = [...lines].find(
      ({ dataset }) => dataset.name === file.name && Number(dataset.size) === file.size && dataset.interview === interview,
    );
    return element && { element, key: element.dataset.key };
  }

  line(file) {
    const node = document.createElement("li");
    const text = document.createElement("div");
    const name = document.createElement("p");
    const strong = document.createElement("strong");
    const says = document.createElement("p");
    const bar = document.createElement("progress");
    node.className = "arrival";
    strong.textContent = file.name;
    says.className = "arrival-says";
    says.textContent = this.words.waits;
    bar.className = "arrival-bar";
    bar.max = Math.max(1, file.size);
    bar.value = 0;
    bar.setAttribute("aria-label", this.words.bar.replace("{name}", file.name));
    name.append(strong);
    text.append(name, says, bar);
    node.append(text);
    this.list.append(node);
    return { node, strong, says, bar };
  }

  show({ node, strong, says, bar }, file, now) {
    if (now.gone) {
      says.textContent = this.words.gone;
      return;
    }
    node.dataset.state = now.state;
    strong.textContent = now.name;
    bar.value = now.state === "arrived" ? now.share * bar.max : now.received;
    says.textContent = now.state === "arriving" ? this.sent(now) : now.says || this.words.whole;
  }

  ended({ node, says, bar }, now) {
    bar.remove();
    says.setAttribute("role", "status");
    if (now.state === "refused") says.textContent = `${now.says} ${this.words.decide}`;
    if (now.state !== "taken in") return;
    const link = document.createElement("a");
    link.href = "../recordings/";
    link.textContent = this.words.see;
    node.append(link);
  }

  sent({ received, size }) {
    const read = (bytes) => (bytes / 1e6).toFixed(1);
    return this.words.sent.replace("{received}", read(received)).replace("{size}", read(size));
  }

  fault(words) {
    const place = this.form.querySelector(".fault");
    place.textContent = words;
    place.hidden = !words;
  }
}

customElements.define("upload-room", UploadRoom);
