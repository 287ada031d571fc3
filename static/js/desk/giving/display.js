// What the giving page shows of the state: the stop that counts, marks, the pace in words, and the button's own words.
import { clockOf, filled, minutesRead } from "./wording.js";

/** Whether the tour is under way. */
function live({ phase }) {
  return phase === "standing" || phase === "walking";
}

export function showStops(giving, state) {
  giving.stops.forEach((stop, number) => stop.classList.toggle("is-now", live(state) && number === state.at));
  for (const telling of giving.querySelectorAll("[data-telling]")) {
    telling.querySelector("[data-marks]").hidden = !live(state);
    for (const button of telling.querySelectorAll("[data-mark]")) {
      const marked = (button.dataset.mark === "told" ? state.told : state.dropped).has(telling.dataset.telling);
      button.setAttribute("aria-pressed", String(marked));
    }
    telling.classList.toggle("is-dropped", state.dropped.has(telling.dataset.telling));
  }
}

export function showPace(giving, state) {
  const said = paceWords(giving.words, state);
  if (giving.part("pace").textContent !== said) giving.part("pace").textContent = said;
  giving.part("pace").classList.toggle("is-behind", live(state) && state.behind >= 1);
  giving.part("ends").textContent = live(state) ? endWords(giving.words, state) : "";
}

function minutes(words, number) {
  return filled(words.minutes, { minutes: minutesRead(number) });
}

function paceWords(words, state) {
  if (state.phase === "over") return filled(words.over, { minutes: minutes(words, state.took) });
  if (!live(state)) return words.before;
  if (Math.abs(state.behind) < 1) return words.on_time;
  return filled(state.behind > 0 ? words.behind : words.ahead, { minutes: minutes(words, state.behind) });
}

function endWords(words, { ends, late }) {
  return filled(late >= 1 ? words.ends_late : words.ends, { clock: clockOf(ends), minutes: minutes(words, late) });
}

export function goWords({ words, plan }, { phase, at }) {
  if (phase === "before") return words.start;
  if (phase === "over") return words.again;
  if (phase === "walking") return filled(words.arrive, { name: plan.stops[at].name });
  return at === plan.stops.length - 1 ? words.finish : filled(words.leave, { name: plan.stops[at + 1].name });
}
