"""What the map of noise is asked: read from the address, and written back into addresses."""

from __future__ import annotations

from dataclasses import dataclass

from flask import request

from archive.errors import Fault, Unacceptable
from archive.reckoners.noise_field.rooms import SHUT_DOOR_DB
from archive.web.requests import whole_number

STAND_BACK_DB, STAND_BACK_FROM, STAND_BACK_TO = 85, 70, 110
SHUT_FROM, SHUT_TO = 0, 50
OTHER_FROM, OTHER_TO = 40, 130
_FURTHEST = 1_000_000
_MOST_LISTED = 500


@dataclass(frozen=True)
class NoiseAsked:
    """Machines that run and doors that stand open (None: as the page opens), and where the level is read.

    `x` and `y` are drawing units from the left and top edge of the plan; `other` is a station where something else
    sounds, `other_db` its level at one metre.
    """

    floor: str
    running: frozenset[str] | None
    open_doors: frozenset[str] | None
    stand_back_db: int
    shut_door_db: int
    at: str
    x: int | None
    y: int | None
    other: str
    other_db: int | None

    def query(self, **changed: str) -> dict[str, str | list[str]]:
        """The address's part after the question mark that asks the same again, with some of it changed."""
        told: dict[str, str | list[str]] = {"floor": self.floor, "stand_back": str(self.stand_back_db)}
        told |= {"shut": str(self.shut_door_db), "at": self.at, "other": self.other}
        if self.running is not None and self.open_doors is not None:
            told |= {"asked": "1", "run": sorted(self.running), "open": sorted(self.open_doors)}
        if self.other_db is not None:
            told["other_db"] = str(self.other_db)
        return {key: value for key, value in {**told, **changed}.items() if value}


def noise_asked() -> NoiseAsked:
    """The question of this request; Unacceptable where a figure is none."""
    given = request.args.get("asked") == "1"
    return NoiseAsked(
        floor=request.args.get("floor", ""),
        running=_refs("run") if given else None,
        open_doors=_refs("open") if given else None,
        stand_back_db=_within("stand_back", STAND_BACK_DB, STAND_BACK_FROM, STAND_BACK_TO),
        shut_door_db=_within("shut", int(SHUT_DOOR_DB), SHUT_FROM, SHUT_TO),
        at=request.args.get("at", ""),
        x=_optional("x", 0, _FURTHEST),
        y=_optional("y", 0, _FURTHEST),
        other=request.args.get("other", ""),
        other_db=_optional("other_db", OTHER_FROM, OTHER_TO),
    )


def _refs(parameter: str) -> frozenset[str]:
    return frozenset(request.args.getlist(parameter)[:_MOST_LISTED])


def _optional(parameter: str, least: int, most: int) -> int | None:
    return _within(parameter, least, least, most) if request.args.get(parameter) else None


def _within(parameter: str, default: int, least: int, most: int) -> int:
    """A whole number within bounds: beyond them it is refused, not bent."""
    number = whole_number(parameter, default, most=10**9)
    if not least <= number <= most:
        fault = Fault(parameter, 0, f"'{number}' is beyond what the map is worked out for", f"From {least} to {most}")
        raise Unacceptable([fault], "The address")
    return number
