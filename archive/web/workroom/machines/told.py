"""What was done to a paper, told in words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext as _

from archive.rights.decisions import spoken_date
from archive.store.model import Change


@dataclass(frozen=True)
class ChangeLine:
    """One deed: its key, who did it, when, in words, and whether it can be undone as things are."""

    key: int
    at: dt.datetime
    who: str
    words: str
    can_undo: bool


def change_line(change: Change, names: Mapping[int, str], *, can_undo: bool) -> ChangeLine:
    """A change of the history as a line."""
    return ChangeLine(change.id, change.at, change.who, _words(change, names), can_undo)


def _words(change: Change, names: Mapping[int, str]) -> str:
    if change.before is None:
        return str(_("Added: %(paper)s", paper=_paper(change.after or {}, names)))
    if change.after is None:
        return str(_("Withdrawn: %(paper)s", paper=_paper(change.before, names)))
    after = change.after
    told = [f"{_NAMES[name]}: {_value(name, change.before.get(name), names)} → {_value(name, after.get(name), names)}"
            for name in _NAMES if name in after]  # fmt: skip
    return str(_("Corrected: %(what)s", what="; ".join(told)))


_NAMES = {"kind": "kind", "person_id": "person", "dated": "dated", "runs_out": "runs out", "note": "note"}


def _paper(values: Mapping[str, Any], names: Mapping[int, str]) -> str:
    parts = [str(values.get("kind", "")), _value("person_id", values.get("person_id"), names)]
    days = f"{_value('dated', values.get('dated'), names)} to {_value('runs_out', values.get('runs_out'), names)}"
    return ", ".join([*(part for part in parts if part), days])


def _value(name: str, value: Any, names: Mapping[int, str]) -> str:
    if not value:
        return ""
    if name == "person_id":
        return names.get(value, "a person who is not shown")
    return spoken_date(dt.date.fromisoformat(value)) if name in {"dated", "runs_out"} else str(value)
