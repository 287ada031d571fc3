// Small makers of what the start, the run and the end are built from.
export function make(tag, told = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(told)) {
    if (name === "on") for (const [event, does] of Object.entries(value)) node.addEventListener(event, does);
    else if (value === true) node.setAttribute(name, "");
    else if (value !== false && value !== null) node.setAttribute(name, value);
  }
  node.append(...children);
  return node;
}

export function list(rows, tag = "ul") {
  return make(tag, {}, ...rows.map((row) => make("li", {}, row)));
}

export function caution(heading, rows) {
  return make("div", { class: "caution" }, make("h3", {}, heading), list(rows));
}

export function filled(words, values) {
  return words.replace(/\{(\w+)\}/g, (_whole, name) => values[name]);
}

// A day as people read it, from 2026-11-25.
export function dayRead(day, language) {
  return new Intl.DateTimeFormat(language, { dateStyle: "long", timeZone: "UTC" }).format(new Date(`${day}T00:00Z`));
}
