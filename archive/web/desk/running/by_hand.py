"""A run written down elsewhere, read from the form of the log."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from archive.errors import Fault, Unacceptable
from archive.objects.model import MuseumObject
from archive.objects.running.handed import BY_HAND, HandedRun, read_run
from archive.values.dayclock import at_house


def run_by_hand(machine: MuseumObject, form: Mapping[str, str], *, latest: dt.datetime) -> HandedRun:
    """The run; Unacceptable with every fault, each named by the field it is in."""
    faults = [*_chosen(machine, form), *_timed(form)]
    if faults:
        raise Unacceptable(faults, "The run")
    key = form.get("key", "")
    return read_run(
        {
            "key": key if key.startswith(BY_HAND) else BY_HAND + key,
            "machine": machine.ref,
            "demonstration": form["demonstration"],
            "operator": form["operator"],
            "started_at": _started(form).isoformat(),
            "minutes": float(form["minutes"]),
            "faults": form.get("faults", ""),
        },
        latest=latest,
    )


def _started(form: Mapping[str, str]) -> dt.datetime:
    return at_house(dt.date.fromisoformat(form["day"]), dt.time.fromisoformat(form["time"]))


def _chosen(machine: MuseumObject, form: Mapping[str, str]) -> list[Fault]:
    faults = []
    if form.get("demonstration") not in {each.ref for each in machine.demonstrations}:
        faults.append(Fault("demonstration", 0, "Choose what was shown", "One of this machine's demonstrations"))
    named = {each.person.ref for each in machine.clearances if each.kind == "operator" and each.person}
    if form.get("operator") not in named:
        faults.append(Fault("operator", 0, "Choose who ran it", "One of those who are or were cleared for it"))
    return faults


def _timed(form: Mapping[str, str]) -> list[Fault]:
    faults = []
    try:
        dt.date.fromisoformat(form.get("day", ""))
    except ValueError:
        faults.append(Fault("day", 0, "This is not a day", "Year, month and day, like 2026-11-25"))
    try:
        dt.time.fromisoformat(form.get("time", ""))
    except ValueError:
        faults.append(Fault("time", 0, "This is not a time", "Hours and minutes, like 14:05"))
    try:
        float(form.get("minutes", ""))
    except ValueError:
        faults.append(Fault("minutes", 0, "This is not a number of minutes", "A number like 4.5"))
    return faults
