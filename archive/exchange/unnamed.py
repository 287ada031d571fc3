"""The names of people who may not be named: found wherever else in a folder they stand, and never said again."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from archive.exchange.columns import PEOPLE
from archive.exchange.csv_tables import CsvRow, parse_table
from archive.exchange.draft import Draft, PersonDraft
from archive.exchange.faults import FaultList, Place

INSTEAD = "the name of an unnamed person"
ALLOWED = "It may stand in the name column of people.csv alone; take it out here"
PEOPLE_FILE = "people.csv"


class UnnamedNames:
    """The kept names, as one pattern that finds any of them whole, in any case, whatever stands between the words."""

    def __init__(self, people_text: str) -> None:
        self._rows = parse_table(people_text, PEOPLE_FILE, PEOPLE, FaultList()) if people_text else []
        names = [row.cells["name"] for row in self._rows if _is_unnamed(row)]
        patterns = [pattern for name in names if (pattern := _pattern(name))]
        self._found = re.compile("|".join(patterns), re.IGNORECASE) if patterns else None

    def hide(self, text: str) -> str:
        """The text without any of them."""
        return self._found.sub(INSTEAD, text) if self._found else text

    def check(self, texts: Mapping[str, str], names: Sequence[str], draft: Draft, faults: FaultList) -> None:
        """Tell each place outside its own cell where such a name stands: texts, names of files, and what was read."""
        if self._found is None:
            return
        told: set[str] = set()
        for place in self._places(texts, names, self._found.search):
            told.add(place.where)
            faults.add(place, INSTEAD, ALLOWED)
        # Escapes and marks may have hidden a name in the text as it was written.
        for text, place in _strings(draft, Place("the folder")):
            if place.where not in told and self._found.search(text):
                told.add(place.where)
                faults.add(place, INSTEAD, ALLOWED)

    def _places(
        self, texts: Mapping[str, str], names: Sequence[str], search: Callable[[str], re.Match[str] | None]
    ) -> Iterator[Place]:
        for name in names:
            if search(name):
                yield Place(name)
        for row in self._rows:
            own = () if _is_unnamed(row) else ("name",)
            if any(search(row.cells[key]) for key in (*own, *(key for key in row.cells if key != "name"))):
                yield row.place()
        for where, text in texts.items():
            found = where != PEOPLE_FILE and (search(text) or search(html.unescape(text)))
            if found:
                line = found.string.count("\n", 0, found.start()) + 1
                yield Place(where, line)


def _is_unnamed(row: CsvRow) -> bool:
    """Whatever is not plainly "no": a slip in that cell must not let a name out."""
    return row.cells["unnamed"].strip() not in ("no", "")


def _pattern(name: str) -> str:
    words = re.findall(r"[^\W_]+", name)
    return r"(?<![^\W_])" + r"[\W_]{1,20}".join(map(re.escape, words)) + r"(?![^\W_])" if words else ""


def _strings(value: Any, place: Place) -> Iterator[tuple[str, Place]]:
    """Every text in a draft, with the place of the record around it."""
    if isinstance(value, str):
        yield value, place
    elif is_dataclass(value):
        own = value.origin if isinstance(value, Draft) and value.origin.where else place
        hidden = {"origin"} | ({"name"} if isinstance(value, PersonDraft) else set())
        for part in fields(value):
            if part.name not in hidden:
                yield from _strings(getattr(value, part.name), own)
    elif isinstance(value, Mapping):
        yield from _strings(tuple(value.items()), place)
    elif isinstance(value, tuple | list | frozenset):
        for entry in value:
            yield from _strings(entry, place)
