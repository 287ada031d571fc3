// Where a tour stands: worked out anew each time from the plan and the lines of the log. Pure.

const MINUTE = 60000;

/** The lines that count: those that were not taken back, in their order. */
export function counting(lines) {
  return lines.filter((line) => !line.taken_back).sort((one, other) => one.moment - other.moment || one.step - other.step);
}

/**
 * The minute at which all of a stop has been told that is not in the set, when it is begun at a minute: a machine does
 * not begin before it may, and the group waits. `seen` is told each telling with the minute at which it is come to.
 */
export function leaving(stop, begun, without = new Set(), seen = () => {}) {
  return stop.tellings.reduce((clock, telling) => {
    if (without.has(telling.ref)) return clock;
    seen(telling, clock);
    return Math.max(clock, telling.not_before ?? 0) + telling.minutes;
  }, begun);
}

/** The tellings last marked "told" or "dropped". */
export function marks(lines) {
  const last = new Map();
  for (const line of counting(lines)) if (line.kind === "told" || line.kind === "dropped") last.set(line.telling, line.kind);
  const marked = (kind) => new Set([...last].filter(([, said]) => said === kind).map(([ref]) => ref));
  return { told: marked("told"), dropped: marked("dropped") };
}

/** How the plan runs: for each stop the minutes from the start at which it is reached and left. */
export function planned(plan) {
  let clock = 0;
  return plan.stops.map((stop) => {
    const arrive = clock + stop.walk;
    clock = leaving(stop, arrive);
    return { arrive, leave: clock };
  });
}

/**
 * The state of an outing at a moment (milliseconds): phase "before", "walking", "standing" or "over"; `at` is the stop
 * stood at or walked to; `behind` minutes (less than none: ahead); `ends` the moment at which all that is left and not
 * dropped has been told; `late` minutes past the tour's own. `begun` is the minute at which the stop at hand was come to
 * or will be, `elapsed` that of the moment.
 */
export function progress(plan, lines, now) {
  const kept = counting(lines);
  const start = kept.find((line) => line.kind === "started");
  const { told, dropped } = marks(lines);
  if (!start) return { phase: "before", at: 0, told, dropped };
  const steps = kept.filter((line) => line.kind === "arrived" || line.kind === "left");
  const finish = kept.find((line) => line.kind === "finished");
  if (finish) return { phase: "over", at: plan.stops.length - 1, told, dropped, took: (finish.moment - start.moment) / MINUTE };
  const arrivals = steps.filter((line) => line.kind === "arrived").length;
  const departures = steps.length - arrivals;
  const standing = arrivals > departures;
  const at = Math.min(standing ? arrivals - 1 : departures, plan.stops.length - 1);
  const since = ((steps.at(-1) ?? start).moment - start.moment) / MINUTE;
  const elapsed = (now - start.moment) / MINUTE;
  const due = planned(plan)[at];
  const here = plan.stops[at];
  const begun = standing ? since : Math.max(elapsed, since + here.walk);
  const left = Math.max(elapsed, leaving(here, begun, dropped));
  const behind = standing ? left - due.leave : begun - due.arrive;
  const end = plan.stops.slice(at + 1).reduce((clock, stop) => leaving(stop, clock + stop.walk, dropped), left);
  return {
    phase: standing ? "standing" : "walking",
    at, told, dropped, behind, begun, elapsed,
    rest: standing ? left - elapsed : Infinity,
    started: start.moment,
    ends: start.moment + end * MINUTE,
    late: end - plan.minutes,
  };
}

/**
 * What is still to come and could be dropped, a machine with the minutes by which the group comes later than it may
 * begin (less than none is waited). Where the group stands, only the last tellings that fit into the minutes still
 * planned there: leaving out what should have been told long ago saves nothing.
 */
export function stillToCome(plan, state) {
  const gone = new Set([...state.told, ...state.dropped]);
  let clock = state.begun;
  return plan.stops.slice(state.at).map((stop, place) => {
    const late = new Map();
    const seen = ({ ref, not_before }, at) => late.set(ref, Math.max(at, state.elapsed) - (not_before ?? NaN));
    clock = Math.max(state.elapsed, leaving(stop, place ? clock + stop.walk : clock, state.dropped, seen));
    const left = stop.tellings.filter(({ ref }) => !gone.has(ref)).map((one) => ({ ...one, late: late.get(one.ref) }));
    return { tellings: place === 0 ? fitting(left, state.rest) : left };
  });
}

function fitting(tellings, minutes) {
  let left = minutes + 0.001;
  return [...tellings].reverse().filter((telling) => (left -= telling.minutes) >= 0).reverse();
}
