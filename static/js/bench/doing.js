// Which deed does what, by the names that the list of keys gives them.
import * as deeds from "./deeds.js";

const NUDGES = { earlier: -10, later: 10, "much-earlier": -100, "much-later": 100 };

export function doings(bench) {
  const { transcript, rows, player, panels, keeping } = bench;
  const line = () => transcript.lines[rows.at];
  const go = (at) => transcript.lines[at] && rows.choose(transcript.lines[at].id, { letter: 0 });
  const jump = (step) => {
    const at = deeds.nextDoubtful(transcript.lines, rows.at, step);
    if (at < 0) bench.say("no-doubtful");
    else go(at);
  };
  const step = (what) => {
    const came = what === "undo" ? transcript.undo() : transcript.redo();
    if (came !== "done") bench.say(came === "none" ? `${what}-none` : "undo-changed");
  };
  const letter = (found) => found !== null && rows.choose(rows.chosen, { letter: found });
  return {
    play: () => player.play(),
    back: () => player.back(),
    again: () => player.from(line().start),
    slower: () => player.pace(-1),
    faster: () => player.pace(1),
    next: () => go(rows.at + 1),
    previous: () => go(rows.at - 1),
    "next-doubtful": () => jump(1),
    "previous-doubtful": () => jump(-1),
    here: () => go(bench.heardAt()),
    split: () => {
      const id = deeds.split(transcript, rows.at, rows.box.selectionStart, player.now);
      if (id !== null) rows.choose(id, { letter: 0 });
    },
    join: () => letter(deeds.join(transcript, rows.at)),
    speaker: () => rows.rows.get(rows.chosen).querySelector("select, .mend-named").focus(),
    "other-speaker": () => {
      const who = rows.speakers.after(line(), transcript.lines);
      if (who) deeds.speak(transcript, rows.at, who.speaker, who.label);
    },
    unclear: () => letter(deeds.unclear(transcript, rows.at, ...wordAt(rows.box))),
    inaudible: () => letter(deeds.inaudible(transcript, rows.at, rows.box.selectionStart)),
    right: () => {
      if (line().doubtful) deeds.doubt(transcript, rows.at, false);
      jump(1);
    },
    doubt: () => deeds.doubt(transcript, rows.at, true),
    remove: () => deeds.remove(transcript, rows.at),
    tie: () => bench.ties.first() || bench.say("suggested-none"),
    ties: () => (bench.querySelector("[data-ties] button") ?? rows.box).focus(),
    close: () => {
      panels.open("close");
      bench.closing.show(line());
    },
    ...nudges(transcript, rows, player),
    undo: () => step("undo"),
    redo: () => step("redo"),
    replace: () => panels.open("replace"),
    keep: () => keeping.now(),
    keys: () => (panels.isOpen("keys") ? panels.shut() : panels.open("keys")),
  };
}

function nudges(transcript, rows, player) {
  const made = {};
  for (const edge of ["start", "end"]) {
    for (const [name, by] of Object.entries(NUDGES)) made[`${edge}-${name}`] = () => deeds.nudge(transcript, rows.at, edge, by);
    made[`${edge}-here`] = () => deeds.moveTo(transcript, rows.at, edge, player.now);
  }
  return made;
}

/** What is chosen in a text; the word about the cursor where nothing is. */
function wordAt({ value, selectionStart, selectionEnd }) {
  if (selectionStart !== selectionEnd) return [selectionStart, selectionEnd];
  const before = /[^\s[\]]*$/.exec(value.slice(0, selectionStart))[0].length;
  const after = /^[^\s[\]]*/.exec(value.slice(selectionStart))[0].length;
  return [selectionStart - before, selectionStart + after];
}
