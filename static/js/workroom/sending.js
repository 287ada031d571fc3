// Sends one file in pieces: each piece says where it begins, so that it goes on after any break. What tells of it is
// given as `told({received, state, says, share})`; `words` are the sentences of the page.
const PIECE = 1_000_000;
// Sent again after a break, so that the server can see that it is the same file.
const OVERLAP = 65_536;
const LONGEST_WAIT_MS = 10_000;
const LOOK_EVERY_MS = 700;

export class Refused extends Error {}

export class Sending {
  constructor(room, file, interview, told) {
    Object.assign(this, { room, file, interview, told, wait: 500 });
  }

  // Begins anew, or goes on with what had arrived of the same file.
  async send(known) {
    let now = known ? await this.ask(`../upload/${known.key}.json`) : await this.begin();
    this.key = now.key;
    let at = known ? Math.max(0, now.received - OVERLAP) : 0;
    while (now.state === "arriving") {
      this.told(now);
      const piece = await this.read(at);
      now = await this.ask(`../upload/${this.key}/bytes?from=${at}`, { method: "PUT", body: piece }, true);
      at = now.received;
    }
    return this.follow(now);
  }

  begin() {
    const form = new FormData();
    form.set("interview", this.interview);
    form.set("name", this.file.name);
    form.set("size", this.file.size);
    return this.ask(this.room.dataset.begin, { method: "POST", body: form });
  }

  // Until the recording is taken in, or somebody has to say something.
  async follow(now) {
    while (now.state === "arrived") {
      this.told(now);
      await pause(LOOK_EVERY_MS);
      now = await this.ask(`../upload/${this.key}.json`);
    }
    this.told(now);
    return now;
  }

  async read(at) {
    try {
      return await this.file.slice(at, at + PIECE).arrayBuffer();
    } catch {
      throw new Refused(this.room.words.unread);
    }
  }

  // The answer as data. A connection that is gone is waited for; then the server says how far it had come.
  async ask(address, how = {}, piece = false) {
    const headers = { "X-CSRFToken": this.room.dataset.token, Accept: "application/json" };
    let answer;
    try {
      answer = await fetch(address, { ...how, headers });
    } catch (problem) {
      if (!(problem instanceof TypeError)) throw problem;
      this.told({ gone: true });
      await this.connection();
      return piece ? this.ask(`../upload/${this.key}.json`) : this.ask(address, how);
    }
    this.wait = 500;
    return this.read_answer(answer);
  }

  async read_answer(answer) {
    if (answer.redirected || !answer.headers.get("Content-Type")?.includes("json")) throw new Refused(this.room.words.out);
    const said = await answer.json();
    if (!answer.ok) throw new Refused(said.says);
    if (said.token) this.room.dataset.token = said.token;
    return said;
  }

  // Until the browser says that the network is back, or some time has gone by: a server that starts again says nothing.
  async connection() {
    const back = new Promise((met) => addEventListener("online", met, { once: true }));
    await Promise.race([back, pause(this.wait)]);
    this.wait = Math.min(LONGEST_WAIT_MS, this.wait * 2);
  }
}

function pause(ms) {
  return new Promise((met) => setTimeout(met, ms));
}
