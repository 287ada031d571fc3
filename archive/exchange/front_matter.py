"""Prose with TOML between two lines of +++ at its head, and sections under `## ` headings."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from archive.exchange.faults import FaultList, Place, shown
from archive.exchange.toml_files import TomlTable, parse_toml, write_toml

FENCE = "+++"
_NUMBERED = re.compile(r"\d{1,3}[.)]\s+\S")
_LIST_ITEM = re.compile(r"-\s+(\S.*)")
_FORBIDDEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]")
_MOST = 200_000


@dataclass(frozen=True)
class Prose:
    """One such file: its front matter and the text and line of each section."""

    head: TomlTable
    sections: Mapping[str, str]
    lines: Mapping[str, int]

    def body(self, heading: str) -> str:
        """The text of a section; "" if there is none."""
        return self.sections.get(heading, "")

    def place(self, heading: str) -> Place:
        """The line of a heading."""
        return Place(self.head.where, self.lines.get(heading, 0))


def parse_prose(text: str, where: str, headings: Sequence[str], faults: FaultList) -> Prose | None:
    """Front matter and exactly these sections in this order; None, with a fault, if there is no front matter."""
    lines = text.split("\n")
    if lines[0].rstrip() != FENCE:
        faults.add(Place(where, 1), f"it starts with {shown(lines[0])}", "The first line must be +++ and nothing else")
        return None
    closing = next((number for number, line in enumerate(lines[1:], 1) if line.rstrip() == FENCE), 0)
    if not closing:
        faults.add(Place(where, 1), "the +++ of the first line is not closed", "Close it with a second line of +++")
        return None
    head = parse_toml("\n".join(lines[1:closing]), where, faults, offset=1)
    found = _sections(lines, closing + 1, where, headings, faults)
    _check_order(found, where, headings, faults)
    if head is None:
        return None
    return Prose(head, {h: body for h, (body, _) in found.items()}, {h: line for h, (_, line) in found.items()})


def check_numbered(prose: Prose, heading: str, faults: FaultList) -> None:
    """Tell a section that should hold a numbered list and holds none."""
    body = prose.body(heading)
    if body and not any(_NUMBERED.match(line) for line in body.split("\n")):
        faults.add(prose.place(heading), f"'{heading}' holds no numbered list", "Write each step as 1. and its text")


def list_items(prose: Prose, heading: str, faults: FaultList) -> tuple[str, ...]:
    """The entries of a section that is a `- ` list and nothing else; a line that runs on belongs to its entry."""
    items: list[str] = []
    for line in prose.body(heading).split("\n"):
        entry = _LIST_ITEM.fullmatch(line.strip())
        if entry:
            items.append(entry[1])
        elif line.strip() and items:
            items[-1] += " " + line.strip()
        elif line.strip():
            faults.add(
                prose.place(heading), f"'{heading}' starts with {shown(line)}", "Write a list, each entry after - "
            )
            return ()
    return tuple(items)


def write_prose(head: Mapping[str, Any], sections: Sequence[tuple[str, str]]) -> str:
    """The file's text."""
    body = "\n".join(f"## {heading}\n\n{text}\n" for heading, text in sections)
    return f"{FENCE}\n{write_toml(head)}{FENCE}\n\n{body}"


def _sections(
    lines: list[str], start: int, where: str, headings: Sequence[str], faults: FaultList
) -> dict[str, tuple[str, int]]:
    found: dict[str, tuple[str, int]] = {}
    heading, bodies = "", dict[str, list[str]]()
    for number, line in enumerate(lines[start:], start + 1):
        if line.startswith("## "):
            heading = line[3:].strip()
            _check_heading(heading, found, Place(where, number), headings, faults)
            found.setdefault(heading, ("", number))
            bodies.setdefault(heading, [])
        elif heading:
            bodies[heading].append(line.rstrip())
        elif line.strip():
            faults.add(
                Place(where, number), f"text before the first heading: {shown(line)}", "Begin with ## and a heading"
            )
            heading = "\0"
            bodies[heading] = []
    for name, (_, number) in found.items():
        body = "\n".join(bodies[name]).strip("\n")
        if _FORBIDDEN.search(body) or len(body) > _MOST:
            faults.add(
                Place(where, number), f"{shown(name)} is no plain text or too long", "Write up to 200,000 letters"
            )
        found[name] = (body.strip(), number)
    return found


def _check_heading(
    heading: str, found: Mapping[str, object], place: Place, headings: Sequence[str], faults: FaultList
) -> None:
    if heading not in headings:
        faults.add(place, f"the heading {shown(heading)} is not known here", f"The headings are {', '.join(headings)}")
    elif heading in found:
        faults.add(place, f"the heading {shown(heading)} stands twice", "Use it once")


def _check_order(found: Mapping[str, tuple[str, int]], where: str, headings: Sequence[str], faults: FaultList) -> None:
    known = [heading for heading in found if heading in headings]
    for heading in headings:
        body, line = found.get(heading, ("", 0))
        if not body:
            state = "is empty" if heading in found else "is missing"
            faults.add(Place(where, line), f"the section '{heading}' {state}", "Every section must be there, with text")
    if known != [heading for heading in headings if heading in found]:
        faults.add(
            Place(where, found[known[0]][1]), "the sections are not in their order", f"It is {', '.join(headings)}"
        )
