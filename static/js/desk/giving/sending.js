// An outing and lines of its log in the form in which they are handed in. Pure.

export function asSent(outing, lines) {
  const { key, tour, guide, given_on, group_size, planned } = outing;
  return {
    outing: { key, tour, guide, given_on, group_size, planned, note: "" },
    entries: lines.map((line) => ({
      key: line.key,
      at: new Date(line.moment).toISOString(),
      kind: line.kind,
      station: line.station,
      telling: line.telling,
      text: line.text,
      taken_back: line.taken_back,
    })),
  };
}
