// What to drop to end on time: the choices, each with a button that marks its tellings as skipped.
import { filled, minutesRead } from "./wording.js";
import { whatToDrop } from "./dropping.js";

/** Show the choices from here; nothing is drawn anew while they stay the same. */
export function showDrops(giving, state, stops) {
  const panel = giving.part("drop");
  const live = state.phase === "standing" || state.phase === "walking";
  panel.hidden = !live || state.late < 1;
  if (panel.hidden) return;
  const left = stops.map(({ tellings }) => tellings.map((telling) => telling.ref)).join(" ");
  const asked = `${left} ${Math.ceil(state.late)}`;
  if (panel.dataset.asked === asked) return;
  panel.dataset.asked = asked;
  const began = performance.now();
  const options = whatToDrop(stops, state.late);
  panel.dataset.took = String(performance.now() - began);
  giving.part("drop-says").replaceChildren(...(options.length ? drawn(giving, options) : [line("p", giving.words.no_drop)]));
}

function drawn(giving, options) {
  const told = options.map((option) => choice(giving, option));
  const short = Math.min(...options.map((option) => option.short));
  const late = filled(giving.words.minutes, { minutes: minutesRead(short) });
  return short > 0.05 ? [line("p", filled(giving.words.drop_none, { minutes: late })), ...told] : told;
}

function choice(giving, option) {
  const minutes = filled(giving.words.minutes, { minutes: minutesRead(option.saves) });
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button button--quiet giving-option";
  const named = option.tellings.map((telling) => telling.title).join("; ");
  button.append(line("span", named), line("span", filled(giving.words.drop_saves, { minutes }), "figure quiet"));
  button.addEventListener("click", async () => {
    for (const { ref } of option.tellings) await giving.mark(ref, "dropped");
    giving.part("go").focus({ preventScroll: true });
  });
  return button;
}

function line(kind, words, look = "") {
  const made = document.createElement(kind);
  made.textContent = words;
  made.className = look;
  return made;
}
