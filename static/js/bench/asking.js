// Asking the server: JSON both ways, with a token that is fetched anew when the page has been open for long.
export class Refused extends Error {
  constructor(status, told) {
    super(told.says ?? "");
    this.status = status;
    this.told = told;
  }
}

export class Asking {
  constructor(token, page) {
    this.token = token;
    this.page = page;
  }

  async get(address) {
    const answer = await fetch(address, { headers: { Accept: "application/json" } });
    return this.#read(answer);
  }

  /** Gives the answer; Refused where the server says no, and TypeError where it cannot be reached. */
  async post(address, body, again = true) {
    const answer = await fetch(address, {
      method: "POST",
      headers: { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": this.token },
      body: JSON.stringify(body),
    });
    if (answer.status === 400 && again && !isJson(answer) && (await this.#renew())) return this.post(address, body, false);
    return this.#read(answer);
  }

  async #renew() {
    const answer = await fetch(this.page);
    if (!answer.ok || answer.redirected) return false;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    this.token = page.querySelector("transcript-bench").dataset.token;
    return true;
  }

  async #read(answer) {
    if (answer.redirected) throw new Refused(401, {});
    const told = isJson(answer) ? await answer.json() : {};
    if (!answer.ok) throw new Refused(answer.status, told);
    return told;
  }
}

const isJson = (answer) => (answer.headers.get("Content-Type") ?? "").startsWith("application/json");
