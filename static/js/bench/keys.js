// Which keys do which deed: those of the page, until somebody changes them in this browser.
const PLACE = "lemel-bench-keys";
const CODES = { Comma: ",", Period: ".", BracketLeft: "[", BracketRight: "]", Slash: "/", Semicolon: ";", Quote: "'", Minus: "-", Equal: "=", Space: "Space" };

/** The keys of an event in words, such as Alt+Shift+P; "" while only Shift and the like are down. */
export function chord(event) {
  if (["Control", "Alt", "Shift", "Meta", "AltGraph", "Dead", "CapsLock"].includes(event.key)) return "";
  const held = [event.ctrlKey || event.metaKey ? "Ctrl" : "", event.altKey ? "Alt" : "", event.shiftKey ? "Shift" : ""];
  return [...held.filter(Boolean), named(event)].join("+");
}

// With Alt or Shift held, a key may write another sign: then the place of the key says which it is.
function named({ key, code, altKey, shiftKey }) {
  if (key.length > 1) return key;
  if (code in CODES && (altKey || shiftKey || key === " ")) return CODES[code];
  if (altKey && !/^[a-z]$/i.test(key) && /^Key[A-Z]$/.test(code)) return code.slice(3);
  return key.toUpperCase();
}

/** Whether keys would stop somebody from writing, or from moving through the page. */
export function writes(keys) {
  const name = keys.split("+").at(-1);
  if (name === "Tab" || name === "Escape") return true;
  const bare = !keys.startsWith("Ctrl+") && !keys.startsWith("Alt+");
  return bare && !/^F\d+$/.test(name);
}

export class Keys {
  constructor(deeds) {
    this.first = new Map(deeds);
    this.own = new Map(Object.entries(read()));
  }

  of(deed) {
    return this.own.get(deed) ?? this.first.get(deed);
  }

  deedOf(event) {
    const keys = chord(event);
    return keys && [...this.first.keys()].find((deed) => this.of(deed) === keys);
  }

  /** Give a deed other keys. Gives the deed that had them and has none now, if any. */
  change(deed, keys) {
    const robbed = [...this.first.keys()].find((other) => other !== deed && this.of(other) === keys);
    if (robbed) this.own.set(robbed, "");
    this.own.set(deed, keys);
    this.#keep();
    return robbed;
  }

  asFirst() {
    this.own.clear();
    this.#keep();
  }

  #keep() {
    localStorage.setItem(PLACE, JSON.stringify(Object.fromEntries(this.own)));
  }
}

function read() {
  try {
    return JSON.parse(localStorage.getItem(PLACE) ?? "{}");
  } catch (problem) {
    if (!(problem instanceof SyntaxError)) throw problem;
    return {}; // Something else wrote there.
  }
}
