// Runs kept on the device: the one that goes on, and those that ended and are not handed in yet.
const ENDED = "lemel-runs-ended";

function read(name, otherwise) {
  return JSON.parse(localStorage.getItem(name) ?? "null") ?? otherwise;
}

export class KeptRun {
  constructor(demonstration) {
    this.name = `lemel-run:${demonstration}`;
  }

  get now() {
    return read(this.name, null);
  }

  begin(run) {
    localStorage.setItem(this.name, JSON.stringify(run));
  }

  // The run is first put among the ended ones, so that a device that dies between the two has it still.
  end(run) {
    localStorage.setItem(ENDED, JSON.stringify([...ended().filter((other) => other.key !== run.key), run]));
    localStorage.removeItem(this.name);
  }
}

export function ended() {
  return read(ENDED, []);
}

export function letGo(key) {
  localStorage.setItem(ENDED, JSON.stringify(ended().filter((run) => run.key !== key)));
}

export function newKey() {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A moment with the device's own zone, so that the day of the run is the day in the house.
export function zoned(date) {
  const ahead = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + ahead * 60000).toISOString().slice(0, 19);
  const two = (number) => String(Math.floor(Math.abs(number))).padStart(2, "0");
  return `${local}${ahead < 0 ? "-" : "+"}${two(ahead / 60)}:${two(ahead % 60)}`;
}

export function todayHere() {
  return zoned(new Date()).slice(0, 10);
}

// Sends a run; null when the network is out of reach. The token is fetched anew: the page may be hours old.
export async function send(address, tokenAddress, run) {
  try {
    const given = await fetch(tokenAddress, { headers: { Accept: "application/json" } });
    if (given.redirected || !given.ok) return { signedOut: true };
    const { token } = await given.json();
    const headers = { "Content-Type": "application/json", "X-CSRFToken": token };
    const answer = await fetch(address, { method: "POST", headers, body: JSON.stringify(run) });
    const plain = (answer.headers.get("Content-Type") ?? "").includes("json");
    return { ok: answer.ok, broken: !plain, ...(plain ? await answer.json() : {}) };
  } catch (problem) {
    if (!(problem instanceof TypeError)) throw problem;
    return null;
  }
}
