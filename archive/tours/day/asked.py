"""What a person asks of a departure or of a day's rules, read from a form. Pure."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from archive.errors import Fault, Unacceptable
from archive.reckoners.hazard.noise_law import LOWER_ACTION_DB, UPPER_ACTION_DB
from archive.tours.day.problem import Rules
from archive.values.dayclock import read_minute

GROUP_MOST, GUIDE_LONGEST, NOTE_LONGEST = 500, 120, 500
PAUSE_MOST, LEVEL_LEAST, LEVEL_MOST = 120, 50, 110
STEPS = (1, 5, 10, 15)
_HOW = "Write it as 9:05 or 14:30"


@dataclass(frozen=True)
class DepartureAsked:
    """A departure as it is asked for; times are minutes from midnight."""

    tour: str
    guide: str
    group_size: int
    earliest: int
    latest: int
    leaves: int | None = None
    fixed: bool = False
    note: str = ""


def read_departure(form: Mapping[str, str], tours: Collection[str]) -> DepartureAsked:
    """The departure of a form; Unacceptable with all faults, each under its field's name."""
    faults: list[Fault] = []
    earliest, latest = (_minute(form, name, faults) for name in ("earliest", "latest"))
    leaves = _minute(form, "leaves", faults) if form.get("leaves", "").strip() else None
    size = _number(form, "group_size", 1, GROUP_MOST, faults)
    chosen, guide, note = (form.get(name, "").strip() for name in ("tour", "guide", "note"))
    if chosen not in tours:
        faults.append(Fault("tour", 0, f"There is no tour '{chosen[:40]}' to choose", "Choose one of the list"))
    if len(guide) > GUIDE_LONGEST or "/" in guide:
        faults.append(Fault("guide", 0, "This is not a name", f"Write up to {GUIDE_LONGEST} letters, without '/'"))
    if len(note) > NOTE_LONGEST:
        faults.append(Fault("note", 0, f"The note has {len(note)} letters", f"Write up to {NOTE_LONGEST}"))
    if earliest is not None and latest is not None and latest < earliest:
        faults.append(Fault("latest", 0, "This is before “not before”", "Give the same time or a later one"))
    if faults or earliest is None or latest is None:
        raise Unacceptable(faults, "The departure")
    return DepartureAsked(chosen, guide, size, earliest, latest, leaves, form.get("fixed") == "yes", note)


def read_time(text: str) -> int | None:
    """A time of day set by hand; None when the field was emptied."""
    if not text.strip():
        return None
    faults: list[Fault] = []
    minute = _minute({"leaves": text}, "leaves", faults)
    if faults:
        raise Unacceptable(faults, "The departure")
    return minute


def read_rules(form: Mapping[str, str]) -> Rules:
    """The rules of an address or a form; what is not said stays as it usually is."""
    faults: list[Fault] = []
    usual = Rules()
    pause = _number({"pause": f"{usual.pause}", **_said(form)}, "pause", 0, PAUSE_MOST, faults)
    level = _number({"level": f"{usual.level_db:g}", **_said(form)}, "level", LEVEL_LEAST, LEVEL_MOST, faults)
    value, step = form.get("value", "lower"), form.get("step", f"{usual.step}")
    if value not in VALUES:
        faults.append(Fault("value", 0, f"'{value[:20]}' is not an action value", "Choose lower or upper"))
    if step not in map(str, STEPS):
        faults.append(Fault("step", 0, f"'{step[:20]}' is not a step", f"Choose one of {', '.join(map(str, STEPS))}"))
    if faults:
        raise Unacceptable(faults, "The day’s rules")
    return Rules(pause, float(level), VALUES[value], int(step))


VALUES = {"lower": LOWER_ACTION_DB, "upper": UPPER_ACTION_DB}


def rules_said(rules: Rules) -> dict[str, str]:
    """Rules as an address or a form has them."""
    value = next(name for name, level in VALUES.items() if level == rules.value_db)
    return {"pause": f"{rules.pause}", "level": f"{rules.level_db:g}", "value": value, "step": f"{rules.step}"}


def _said(form: Mapping[str, str]) -> dict[str, str]:
    return {name: form[name] for name in ("pause", "level") if form.get(name)}


def _minute(form: Mapping[str, str], name: str, faults: list[Fault]) -> int | None:
    text = form.get(name, "").strip()
    minute = read_minute(text)
    if minute is None:
        faults.append(Fault(name, 0, f"'{text[:20]}' is not a time of day" if text else "No time is given", _HOW))
    return minute


def _number(form: Mapping[str, str], name: str, least: int, most: int, faults: list[Fault]) -> int:
    text = form.get(name, "").strip()
    if not (text.isascii() and text.isdigit() and len(text) < 6 and least <= int(text) <= most):
        given = f"'{text[:20]}' is not a number that can be taken" if text else "No number is given"
        faults.append(Fault(name, 0, given, f"Give a whole number from {least} to {most}"))
        return least
    return int(text)
