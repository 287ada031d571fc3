// What to drop to end on time; the same rule as archive/tours/given/dropping.py, held together by a test over the same cases.

const TENTHS = 10;

/**
 * Up to two choices: that which loses least, and that which drops fewest tellings. `stops` are what is still to come;
 * `over` the minutes that are too many. What is pinned stays. Each choice tells what it saves and how much is short.
 */
export function whatToDrop(stops, over) {
  const need = Math.ceil(Math.round(over * 1000) / 100);
  if (need <= 0) return [];
  const free = stops.flatMap((stop) => stop.tellings.filter((telling) => !telling.pinned));
  const choices = [(telling) => tenths(telling.worth ?? telling.minutes), () => 1].map((loss) => least(free, need, loss));
  const told = choices.filter((tellings) => tellings.length).map((tellings) => option(tellings, need));
  return told.filter((one, at) => told.findIndex((other) => names(other) === names(one)) === at);
}

function tenths(minutes) {
  return Math.round(minutes * TENTHS);
}

/** The tellings that together save enough and lose least: then those that save least, then the fewest. */
function least(free, need, loss) {
  const whole = free.reduce((sum, telling) => sum + tenths(telling.minutes), 0);
  const wanted = Math.min(need, whole);
  let best = new Array(wanted + 1).fill(null);
  best[0] = { rank: [0, 0, 0], tellings: [] };
  for (const telling of free) {
    const next = [...best];
    best.forEach((from, saved) => {
      if (!from) return;
      const gain = tenths(telling.minutes);
      const at = Math.min(wanted, saved + gain);
      const rank = [from.rank[0] + loss(telling), from.rank[1] + gain, from.rank[2] + 1];
      if (!next[at] || before(rank, next[at].rank)) next[at] = { rank, tellings: [...from.tellings, telling] };
    });
    best = next;
  }
  return best[wanted]?.tellings ?? [];
}

function before(one, other) {
  const differ = one.findIndex((part, at) => part !== other[at]);
  return differ >= 0 && one[differ] < other[differ];
}

function option(tellings, need) {
  const saves = tellings.reduce((sum, telling) => sum + tenths(telling.minutes), 0);
  return { tellings, saves: saves / TENTHS, short: Math.max(0, need - saves) / TENTHS };
}

function names({ tellings }) {
  return tellings.map((telling) => telling.ref).join(" ");
}
