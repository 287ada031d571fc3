"""Under which name a person is shown."""

from __future__ import annotations

import re
from collections.abc import Iterable

from archive.people.model import Person
from archive.rights.decisions import Allowance

_GUARDED = ("own", "initials", "other")


def shown_name(person: Person, allowances: Iterable[Allowance]) -> str:
    """The name for one purpose, given what the person's open agreements say of it: the most guarded form wins.

    An unnamed person's own name is never shown, whatever else is allowed.
    """
    strictest = max(allowances, key=lambda a: _GUARDED.index(a.name_form), default=Allowance(True))
    if strictest.name_form == "other":
        return strictest.shown_as
    if person.unnamed:
        return person.called
    if strictest.name_form == "initials":
        return person.initials or initials_of(person.name)
    return person.name


def initials_of(name: str) -> str:
    """N. F. of Nella Farrant."""
    return " ".join(f"{part[0].upper()}." for part in name.replace("-", " ").split())


def without_name(text: str, person: Person, shown: str) -> str:
    """A title or summary in which a person's own name, whole or in part, gives way to the shown one."""
    if shown in {"", person.name} or person.kind == "firm":
        return text
    parts = [part for part in person.name.replace("-", " ").split() if len(part) > 2]
    whole = r"\s+".join(map(re.escape, person.name.split()))
    told = "|".join([whole, *map(re.escape, parts)])
    return re.sub(rf"\b(?:{told})(?:\s+(?:{told}))*\b", lambda _match: shown, text)
