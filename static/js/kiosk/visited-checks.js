// A check that was visited hangs turned, until the visit is over. Kept for this tab alone.
const KEPT = "visited-checks";

function visited() {
  return new Set(JSON.parse(sessionStorage.getItem(KEPT) ?? "[]"));
}

function note(station) {
  sessionStorage.setItem(KEPT, JSON.stringify([...visited().add(station)]));
}

function turnChecks() {
  const seen = visited();
  for (const link of document.querySelectorAll("[data-station]")) {
    link.classList.toggle("check--visited", seen.has(link.dataset.station));
  }
}

const here = document.querySelector("[data-visited]");
if (here) note(here.dataset.visited);
turnChecks();
addEventListener("pageshow", turnChecks);
addEventListener("visit-over", turnChecks);

// "Back" goes where the visitor came from, when that was on this site; without script it leads up one level.
const back = document.querySelector(".rail__back a");
const cameFrom = document.referrer && new URL(document.referrer);
if (back && cameFrom && cameFrom.origin === location.origin && cameFrom.href !== location.href && history.length > 1) {
  back.addEventListener("click", (event) => {
    event.preventDefault();
    history.back();
  });
}
