"""The rule of who may see or hear an interview, as a pure decision with its reason in words.

`rights.queries` says the same as SQL; one table of cases in the tests holds the two together.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum


class Role(StrEnum):
    """Who is asking."""

    VISITOR = "visitor"
    READER = "reader"
    GUIDE = "guide"
    KEEPER = "keeper"


class Purpose(StrEnum):
    """What for: the purposes that an agreement speaks of, and care, of which none speaks.

    Care is a keeper's work on the collection itself: mending words, closing what must be closed. Only the pages of that
    work ask for it, and only the selects "in care" answer it: to every select for readers it opens nothing. No address,
    agreement, search or machine can name it.
    """

    RESEARCH = "research"
    TOUR = "tour"
    KIOSK = "kiosk"
    WEB = "web"
    PUBLICATION = "publication"
    CARE = "care"


# The purposes that an agreement may speak of and that an address may name: all but care.
AGREED = (Purpose.RESEARCH, Purpose.TOUR, Purpose.KIOSK, Purpose.WEB, Purpose.PUBLICATION)


MAY_ASK: dict[Role, frozenset[Purpose]] = {
    Role.VISITOR: frozenset({Purpose.KIOSK, Purpose.WEB}),
    Role.READER: frozenset({Purpose.RESEARCH, Purpose.KIOSK, Purpose.WEB}),
    Role.GUIDE: frozenset({Purpose.TOUR, Purpose.KIOSK, Purpose.WEB}),
    Role.KEEPER: frozenset(Purpose),
}

OWN_PURPOSE: dict[Role, Purpose] = {
    Role.VISITOR: Purpose.KIOSK,
    Role.READER: Purpose.RESEARCH,
    Role.GUIDE: Purpose.TOUR,
    Role.KEEPER: Purpose.RESEARCH,
}


@dataclass(frozen=True)
class Viewer:
    """Someone asking, for one purpose, on one day. Every query for readers takes one."""

    role: Role
    purpose: Purpose
    on: dt.date

    @property
    def may_ask(self) -> bool:
        """Whether this role may ask for this purpose at all."""
        return self.purpose in MAY_ASK[self.role]

    @property
    def in_care(self) -> bool:
        """Whether a keeper asks so as to work on the collection itself, and so may have what is closed."""
        return self.role is Role.KEEPER and self.purpose is Purpose.CARE


@dataclass(frozen=True)
class Allowance:
    """What an agreement says of one purpose."""

    allowed: bool
    from_date: dt.date | None = None
    withdrawn_on: dt.date | None = None
    name_form: str = "own"
    shown_as: str = ""


@dataclass(frozen=True)
class Decision:
    """Whether it is open, and why, in words."""

    open: bool
    reason: str


def decide(viewer: Viewer, allowance: Allowance | None) -> Decision:
    """Whether a viewer may have an interview, given what its agreement says of the viewer's purpose."""
    purpose = viewer.purpose.value
    if not viewer.may_ask:
        return Decision(False, f"A {viewer.role.value} may not ask for the purpose {purpose}.")
    if viewer.in_care:
        return Decision(False, "No agreement speaks of care: only the pages of a keeper's own work open things for it.")
    if allowance is None:
        return Decision(False, f"The agreement does not speak of the purpose {purpose}. Ask the keeper.")
    if not allowance.allowed:
        return Decision(False, f"The narrator did not allow the purpose {purpose}.")
    if allowance.withdrawn_on and allowance.withdrawn_on <= viewer.on:
        return Decision(False, f"The narrator withdrew it on {spoken_date(allowance.withdrawn_on)}.")
    if allowance.from_date and viewer.on < allowance.from_date:
        return Decision(False, f"It is closed until {spoken_date(allowance.from_date)}. Ask the keeper.")
    return Decision(True, f"The narrator allowed the purpose {purpose}.")


def spoken_date(day: dt.date) -> str:
    """A date as people read it: 3 May 2031."""
    return f"{day.day} {day:%B %Y}"
