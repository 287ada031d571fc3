// The giving page of the Desk: the log is in the browser's database, and is handed in when the network is there.
import { TourGiving } from "./tour-giving.js";
import { openKeptLog } from "./kept-log.js";
import "./hand-in.js";
import "./pack-keeper.js";
import "../start-check.js";

TourGiving.openLog = openKeptLog;
customElements.define("tour-giving", TourGiving);
