// The giving page of a pack on a disk: the log is kept with the file, and saved as a file to be handed in.
import { TourGiving } from "./tour-giving.js";
import { openFileLog } from "./file-log.js";
import { asSent } from "./sending.js";
import { ended } from "../running/kept-run.js";
import "../start-check.js";

function save(giving) {
  const outings = giving.log.all().map(({ outing, lines }) => asSent(outing, lines));
  const file = new Blob([JSON.stringify({ outings, runs: ended() }, null, 1)], { type: "application/json" });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `${giving.plan.tour}-log.json`;
  link.click();
  URL.revokeObjectURL(link.href);
  giving.part("log-says").textContent = giving.words.log_saved;
}

TourGiving.openLog = async () => {
  const log = await openFileLog();
  const giving = document.querySelector("tour-giving");
  const button = giving.part("save");
  button.hidden = false;
  button.addEventListener("click", () => save(giving));
  if (!log.lasting) giving.part("log-says").textContent = giving.words.log_short;
  return log;
};
customElements.define("tour-giving", TourGiving);
