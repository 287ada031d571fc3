"""The command that plans a tour from a shell: the planner's work without a browser."""

from __future__ import annotations

import json
import sys
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import click

from archive.errors import CannotRead
from archive.rights.decisions import Purpose, Role, Viewer
from archive.settings import Settings
from archive.store.homes import open_home
from archive.tours.model import AUDIENCES, DEPTHS
from archive.tours.planning.planning import SECONDS, Planned, plan
from archive.tours.planning.solution import PlannedStop
from archive.tours.wishes import read_wishes

_NEEDS = ("step-free", "narrow", "no-lift", "quiet", "no-sudden-noise", "captions", "spoken-description")
_SINGLE = ("minutes", "group_size", "starts_at", "start", "finish", "audience", "depth", "seats_every", "voice_every")
_REPEATED = {
    "theme": "themes",
    "must": "must_tellings",
    "visit": "must_stations",
    "leave_out": "not_tellings",
    "pass_by": "not_stations",
    "closed_room": "closed_rooms",
}


@click.command("plan-tour")
@click.option("--wishes", type=click.Path(path_type=Path, dir_okay=False), help="A TOML file with the wishes.")
@click.option("--date", "day", help="The day of the tour, as 2026-05-03; today if none is given.")
@click.option("--minutes", type=float)
@click.option("--group-size", type=int)
@click.option("--starts-at", help="The time of the day, as 10:30.")
@click.option("--start", help="The station to start from.")
@click.option("--finish", help="The station to end at.")
@click.option("--audience", type=click.Choice(AUDIENCES))
@click.option("--depth", type=click.Choice(DEPTHS))
@click.option("--theme", multiple=True, metavar="THEME[=WEIGHT]", help="What it shall tell of; 1 to 3.")
@click.option("--visit", multiple=True, metavar="STATION", help="A station that must be visited.")
@click.option("--pass-by", multiple=True, metavar="STATION", help="A station to leave out.")
@click.option("--must", multiple=True, metavar="TELLING", help="Something that must be told.")
@click.option("--leave-out", multiple=True, metavar="TELLING", help="Something not to tell.")
@click.option("--closed-room", multiple=True, metavar="ROOM")
@click.option("--need", multiple=True, type=click.Choice(_NEEDS))
@click.option("--seats-every", type=float, metavar="MINUTES")
@click.option("--voice-every", type=float, metavar="MINUTES")
@click.option("--follow-the-metal", is_flag=True, help="Keep the order of the work.")
@click.option("--no-demonstrations", is_flag=True, help="Run no machine.")
@click.option(
    "--seconds", default=SECONDS, show_default=True, type=click.FloatRange(0.1, 600), help="The most to look."
)
@click.option("--json", "as_json", is_flag=True, help="Print the tour as JSON.")
@click.pass_obj
def plan_tour(settings: Settings, /, *, wishes: Path | None, seconds: float, as_json: bool, **given: Any) -> None:
    """Plan the best tour there is for some wishes, and tell what was left out and why. Nothing is kept."""
    asked = read_wishes({"date": date.today(), **_from_file(wishes), **_from_options(given)})
    store = open_home(settings)
    click.get_current_context().call_on_close(store.close)
    viewer = Viewer(Role.GUIDE, Purpose.TOUR, date.today())
    planned = plan(store.session, asked, viewer, seconds=seconds)
    click.echo(json.dumps(_data(planned), ensure_ascii=False, indent=2) if as_json else "\n".join(_lines(planned)))
    if not planned.solution.fits:
        sys.exit(1)


def _from_file(path: Path | None) -> dict[str, Any]:
    if path is None:
        return {}
    try:
        return tomllib.loads(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as fault:
        raise CannotRead(str(path), 0, f"It cannot be read: {fault}", "Give a TOML file in UTF-8") from fault


def _from_options(given: dict[str, Any]) -> dict[str, Any]:
    """What was said by options, by the names of the wishes; what was not said is not in it."""
    wishes: dict[str, Any] = {name: given[name] for name in _SINGLE if given[name] is not None}
    if given["day"]:
        wishes["date"] = given["day"]
    for option, field in _REPEATED.items():
        if given[option]:
            wishes[field] = _weights(given[option]) if field == "themes" else list(given[option])
    wishes |= {need.replace("-", "_"): True for need in given["need"]}
    if given["follow_the_metal"]:
        wishes["follow_the_metal"] = True
    if given["no_demonstrations"]:
        wishes["demonstrations"] = False
    return wishes


def _weights(themes: tuple[str, ...]) -> dict[str, Any]:
    parted = [theme.partition("=") for theme in themes]
    return {name: int(weight) if weight.isascii() and weight.isdigit() else weight or 1 for name, _, weight in parted}


def _data(planned: Planned) -> dict[str, Any]:
    found = planned.solution
    stops = [
        {
            "station": stop.station,
            "tellings": list(stop.tellings),
            "walk_minutes": stop.walk,
            "arrive": stop.arrive,
            "wait": stop.wait,
            "leave": stop.leave,
        }
        for stop in found.stops
    ]
    conflict = planned.conflict.as_data() if planned.conflict else {}
    return {**found.as_data(), "stops": stops, **conflict}


def _lines(planned: Planned) -> list[str]:
    found = planned.solution
    if not found.fits:
        return _conflict_lines(planned)
    sure = "This is the best there is (proven)." if found.proven else f"No tour can be worth more than {found.bound:g}."
    lines = [_stop_line(stop) for stop in found.stops]
    lines += [f"{found.minutes:6.1f}  the end", f"Worth {found.value:g} points. {sure}", "Left out:"]
    return lines + [f"  {one.telling:<28} {one.why}" for one in found.left_out]


def _stop_line(stop: PlannedStop) -> str:
    waiting = f"(wait {stop.wait:g} min) " if stop.wait else ""
    return f"{stop.arrive:6.1f}  {stop.station:<20} {waiting}{', '.join(stop.tellings)}"


def _conflict_lines(planned: Planned) -> list[str]:
    if planned.conflict is None:
        return ["No tour was found in the time there was. Give it more --seconds, or wish for less."]
    lines = ["Nothing fits. These wishes cannot be had together:"]
    lines += [f"  {says}" for _field, says in planned.conflict.wishes]
    helps = [f"  {one.says}: {one.gain}" for one in planned.conflict.helps]
    return lines + (["What would help:", *helps] if helps else [])
