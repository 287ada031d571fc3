// Where a tour stands: worked out anew each time from the plan and the lines of the log. Pure.

const MINUTE = 60000;

/** The lines that count: those that were not taken back, in their order. */
export function counting(lines) {
  return lines.filter((line) => !line.taken_back).sort((one, other) => one.moment - other.moment || one.step - other.step);
}

/** Minutes of a stop's tellings that are not in the set. */
export function minutesOf(stop, without = new Set()) {
  return stop.tellings.reduce((sum, telling) => sum + (without.has(telling.ref) ? 0 : telling.minutes), 0);
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
    clock = arrive + minutesOf(stop);
    return { arrive, leave: clock };
  });
}

/**
 * The state of an outing at a moment (milliseconds): phase "before", "walking", "standing" or "over"; `at` is the stop
 * stood at or walked to; `behind` minutes (less than none: ahead); `ends` the moment at which all that is left and not
 * dropped has been told; `late` minutes past the tour's own.
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
  const here = minutesOf(plan.stops[at], dropped);
  const free = standing ? Math.max(elapsed, since + here) : Math.max(elapsed, since + plan.stops[at].walk);
  const behind = standing ? free - due.leave : free - due.arrive;
  const after = plan.stops.slice(at + 1).reduce((sum, stop) => sum + stop.walk + minutesOf(stop, dropped), 0);
  const end = free + after + (standing ? 0 : here);
  return {
    phase: standing ? "standing" : "walking",
    at, told, dropped, behind,
    rest: standing ? free - elapsed : Infinity,
    started: start.moment,
    ends: start.moment + end * MINUTE,
    late: end - plan.minutes,
  };
}

/**
 * What is still to come and could be dropped. Where the group stands, only the last tellings that fit into the minutes
 * still planned there: leaving out what should have been told long ago saves nothing.
 */
export function stillToCome(plan, state) {
  const gone = new Set([...state.told, ...state.dropped]);
  const ahead = plan.stops.slice(state.at).map(({ tellings }) => tellings.filter((telling) => !gone.has(telling.ref)));
  return ahead.map((tellings, place) => ({ tellings: place === 0 ? fitting(tellings, state.rest) : tellings }));
}

function fitting(tellings, minutes) {
  let left = minutes + 0.001;
  return [...tellings].reverse().filter((telling) => (left -= telling.minutes) >= 0).reverse();
}
