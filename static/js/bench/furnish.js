// The sheets beside the lines, and the keys: made once the bench has its parts.
import { Closing } from "./closing.js";
import { doings } from "./doing.js";
import { KeyList } from "./key-list.js";
import { Keys } from "./keys.js";
import { Merging } from "./merging.js";
import { Panels } from "./panels.js";
import { Replacing } from "./replacing.js";
import { Ties } from "./ties.js";

export function furnish(bench) {
  const panel = (name) => bench.querySelector(`[data-panel=${name}]`);
  const { transcript, asking, addresses, known, words, rows, keeping } = bench;
  bench.panels = new Panels(bench, () => rows.box?.focus());
  bench.keys = new Keys([...bench.querySelectorAll("[data-deed]")].map((row) => [row.dataset.deed, row.dataset.key]));
  bench.keyList = new KeyList(panel("keys"), bench.keys, words);
  bench.ties = new Ties(bench.querySelector("[data-ties]"), transcript, keeping, asking, addresses, known, words);
  bench.closing = new Closing(panel("close"), asking, addresses.closures, known, words, (said) => {
    rows.fillAll();
    bench.tell(said);
  });
  bench.replacing = new Replacing(panel("replace"), transcript, asking, addresses.replacements, words, (count) => {
    bench.panels.shut();
    bench.say("replaced", { count });
  });
  bench.merging = new Merging(panel("merge"), words, (who) => rows.speakers.nameOf(who), (told, chosen) => {
    bench.busy(false);
    keeping.takeMerged(told, chosen);
    bench.panels.shut();
  });
  bench.doings = doings(bench);
}
