"""Plans the demo's four tours and writes them into tours/: run it when stations, tellings or the plan change.

    python demo-collection/making/plan_tours.py

Each tour is what the planner finds for the wishes below, on a day before the demo's papers run out.
"""

from __future__ import annotations

import datetime as dt
import tempfile
from pathlib import Path
from typing import Any

from archive.exchange.loading import load
from archive.rights.decisions import Purpose, Role, Viewer
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from archive.tours.planning.planning import plan
from archive.tours.planning.solution import Solution
from archive.tours.wishes import Wishes, read_wishes

FOLDER = Path(__file__).parents[1]
DAY = dt.date(2026, 11, 25)
SECONDS = 120.0

TOURS: dict[str, dict[str, Any]] = {
    "t-families": {
        "name": "From strip to button, for families",
        "summary": (
            "Come in past the check board and follow the metal: see it squeezed, softened, cut and struck, hear those "
            "who did it, and end at the carding bench."
        ),
        "wishes": {
            "audience": "families",
            "minutes": 30,
            "group_size": 12,
            "start": "st-gate",
            "finish": "st-cards",
            "depth": "glance",
            "themes": {"making": 3, "machines": 2, "skill": 1},
            "must_stations": ["st-rolls", "st-muffle", "st-fly-row"],
            "must_tellings": ["tl-gate-welcome", "tl-drop-demo", "tl-cards-glance"],
            "follow_the_metal": True,
            "voice_every": 20,
        },
    },
    "t-school": {
        "name": "Current, heat and a blow, for a school group",
        "summary": (
            "For half a class that has done electricity: why metal hardens and softens, what a falling weight brings, "
            "how a current lays down silver, and what the work did to people."
        ),
        "wishes": {
            "audience": "school",
            "minutes": 45,
            "group_size": 12,
            "start": "st-gate",
            "finish": "st-wages",
            "depth": "closer",
            "themes": {"metal": 3, "machines": 2, "health": 2},
            "must_stations": ["st-vats"],
            "must_tellings": ["tl-gate-welcome", "tl-drop-demo", "tl-vats-glance", "tl-wages-closer"],
            "voice_every": 15,
        },
    },
    "t-metal": {
        "name": "Hard, soft and hard again, for people who know metal",
        "summary": (
            "The chain with its figures and their sources: temper, annealing, pickle, dip, blank, blow, die, solder, "
            "current and the cracks that came in store."
        ),
        "wishes": {
            "audience": "metal",
            "minutes": 75,
            "group_size": 8,
            "start": "st-gate",
            "finish": "st-wages",
            "depth": "metal",
            "themes": {"metal": 3, "machines": 2, "skill": 2},
            "must_tellings": ["tl-fly-demo", "tl-drop-demo"],
            "follow_the_metal": True,
        },
    },
    "t-quiet": {
        "name": "Checks, patterns and pay: quiet and without a step",
        "summary": (
            "A calm tour with seats nearby and no machine running: the board, the clock, the pattern books, the wages "
            "hatch and the carding bench, by the ramp and the lift."
        ),
        "wishes": {
            "audience": "adults",
            "minutes": 40,
            "group_size": 6,
            "start": "st-gate",
            "finish": "st-cards",
            "depth": "closer",
            "themes": {"money": 3, "women-at-work": 2, "town": 1},
            "step_free": True,
            "quiet": True,
            "seats_every": 20,
            "demonstrations": False,
        },
    },
}


def main() -> None:
    """Plan each and write its file."""
    with tempfile.TemporaryDirectory() as folder:
        store = make_home(Settings(Path(folder) / "home", testing=True))
        load(store, FOLDER)
        for ref, told in TOURS.items():
            wishes = read_wishes({"date": DAY, **told["wishes"]})
            found = _planned(store, ref, wishes)
            (FOLDER / "tours" / f"{ref}.toml").write_text(_written(ref, told, wishes, found), "utf-8")
            print(f"{ref}: {found.value:g} points, proven: {found.proven}, {found.seconds:.1f} s")
        store.close()


def _planned(store: Store, ref: str, wishes: Wishes) -> Solution:
    planned = plan(store.session, wishes, Viewer(Role.GUIDE, Purpose.TOUR, DAY), seconds=SECONDS)
    if not planned.solution.fits:
        raise SystemExit(f"{ref}: nothing fits. {planned.conflict}")
    return planned.solution


def _written(ref: str, told: dict[str, Any], wishes: Wishes, found: Solution) -> str:
    head = {
        "ref": ref,
        "name": told["name"],
        "summary": told["summary"],
        "audience": wishes.audience,
        "minutes": wishes.minutes,
        "group_size": wishes.group_size,
        "needs": list(wishes.needs),
        "start": wishes.start,
        "finish": wishes.finish,
        "inputs": wishes.as_data(),
    }
    parts = ["\n".join(f"{key} = {_value(value)}" for key, value in head.items())]
    for stop in found.stops:
        rows = {"station": stop.station, "tellings": list(stop.tellings), "walk_minutes": stop.walk}
        parts.append("[[stops]]\n" + "\n".join(f"{key} = {_value(value)}" for key, value in rows.items()))
    return "\n\n".join(parts) + "\n"


def _value(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_value(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return f"{value}"


if __name__ == "__main__":
    main()
