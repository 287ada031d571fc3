"""Under which name a person is shown."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from archive.people.model import Person
from archive.rights.decisions import Allowance

_GUARDED = ("own", "initials", "other")
_FORMS_OF_ADDRESS = frozenset({"mr", "mrs", "ms", "miss", "dr", "sir", "rev"})


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
    """Words in which a person's own name, whole or in part, gives way to the shown one."""
    if shown in {"", person.name} or person.kind == "firm":
        return text
    return _told(person.name).sub(lambda _match: shown, text)


@lru_cache(maxsize=1024)
def _told(name: str) -> re.Pattern[str]:
    """A name as it may be written: whole or in part, in capitals too, with either apostrophe."""
    parts = [part for part in name.replace("-", " ").split() if _tells(part)]
    ways = [_pattern(way) for part in parts for way in dict.fromkeys((part, part.upper()))]
    whole = r"\s+".join(map(_pattern, name.split()))
    either = "|".join([whole, *ways])
    return re.compile(rf"\b(?:{either})(?:\s+(?:{either}))*\b")


def _tells(part: str) -> bool:
    """Whether a part of a name tells who it is: not an initial, a form of address or a little word such as de."""
    bare = part.rstrip(".")
    return bare.casefold() not in _FORMS_OF_ADDRESS and (len(bare) > 2 or (len(bare) == 2 and bare[0].isupper()))


def _pattern(word: str) -> str:
    return re.sub("['’ʼ]", "['’ʼ]", re.escape(word))
