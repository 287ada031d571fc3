// What to drop to end on time; the same rule as archive/tours/given/dropping.py, held together by a test over the same cases.

const TENTHS = 10;

/**
 * Up to two choices: that which loses least, and that which drops fewest tellings. `stops` are what is still to come;
 * `over` the minutes that are too many. What is pinned stays; `late` says of a machine by how many minutes the group
 * comes later than it may begin. Each choice tells what it saves and how much is short.
 */
export function whatToDrop(stops, over) {
  const need = Math.ceil(Math.round(over * 1000) / 100);
  if (need <= 0) return [];
  const toCome = stops.flatMap((stop) => stop.tellings);
  const choices = [(telling) => tenths(telling.worth ?? telling.minutes), () => 1].map((loss) => least(toCome, need, loss));
  const told = choices.filter((tellings) => tellings.length).map((tellings) => option(toCome, tellings, need));
  return told.filter((one, at) => told.findIndex((other) => names(other) === names(one)) === at);
}

function tenths(minutes) {
  return Math.round(minutes * TENTHS);
}

/** The tellings that together save enough and lose least: then the shorter ones, then the fewest. */
function least(toCome, need, loss) {
  let best = new Map([[0, { rank: [0, 0, 0], tellings: [] }]]);
  for (const telling of toCome) {
    const after = new Map();
    for (const [saved, way] of best) better(after, kept(telling, saved), way);
    for (const [saved, way] of telling.pinned ? [] : best) {
      const rank = [way.rank[0] + loss(telling), way.rank[1] + tenths(telling.minutes), way.rank[2] + 1];
      better(after, Math.min(need, dropped(telling, saved)), { rank, tellings: [...way.tellings, telling] });
    }
    best = new Map([...after].sort(([one], [other]) => one - other));
  }
  return best.get(Math.max(...best.keys())).tellings;
}

function better(ways, saved, way) {
  if (!ways.has(saved) || before(way.rank, ways.get(saved).rank)) ways.set(saved, way);
}

/** What is still saved behind a telling that is told: at a machine no more than the group was late there. */
function kept({ late }, saved) {
  return Number.isFinite(late) ? Math.min(saved, Math.max(0, tenths(late))) : saved;
}

/** What is saved behind a telling that is dropped: its minutes, and the wait for it. */
function dropped({ minutes, late }, saved) {
  return saved + tenths(minutes) + (Number.isFinite(late) ? Math.max(0, -tenths(late)) : 0);
}

function before(one, other) {
  const differ = one.findIndex((part, at) => part !== other[at]);
  return differ >= 0 && one[differ] < other[differ];
}

function option(toCome, tellings, need) {
  const saves = toCome.reduce((saved, one) => (tellings.includes(one) ? dropped(one, saved) : kept(one, saved)), 0);
  return { tellings, saves: saves / TENTHS, short: Math.max(0, need - saves) / TENTHS };
}

function names({ tellings }) {
  return tellings.map((telling) => telling.ref).join(" ");
}
