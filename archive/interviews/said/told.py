"""The figures that narrators told in the open lines, with where they disagree and which lie far from the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.interviews.said.disagreements import Account, Disagreement, Outlier, disagreements, outliers
from archive.interviews.said.figures import figures_in
from archive.interviews.said.keywords import Rarity, roots
from archive.interviews.said.queries import SpokenLine, spoken
from archive.interviews.said.spoken import Spoken
from archive.rights.decisions import Viewer
from archive.store.freshness import memory


@dataclass(frozen=True)
class TellingOf:
    """A figure and the line in which a narrator told it."""

    number: int
    figure: Spoken
    line: SpokenLine

    @property
    def words(self) -> str:
        """The words that the figure stands in."""
        return self.line.text[self.figure.start : self.figure.end]


@dataclass(frozen=True)
class Told:
    """Every figure told in the lines that a viewer may read; each account's number is its place in `figures`."""

    figures: tuple[TellingOf, ...]
    disagreements: tuple[Disagreement, ...]
    outliers: tuple[Outlier, ...]


def told(session: Session, viewer: Viewer) -> Told:
    """The figures that the viewer may read, worked out once for each state of the database."""
    held = memory(session)
    key = ("told", viewer)
    if key not in held:
        held[key] = told_in(spoken(session, viewer).lines)
    found: Told = held[key]
    return found


def told_in(lines: Sequence[SpokenLine]) -> Told:
    """The figures of lines in order, leaving out what interviewers say: they ask, and tell nothing."""
    rarity = Rarity([_keys(line) for line in lines])
    figures: list[TellingOf] = []
    accounts: list[Account] = []
    for before, line in zip([None, *lines], lines, strict=False):
        if line.asks:
            continue
        for figure in figures_in(line.text):
            number = len(figures)
            figures.append(TellingOf(number, figure, line))
            if line.speaker is not None:
                accounts.append(_account(number, figure, before, line))
    return Told(tuple(figures), tuple(disagreements(accounts, rarity)), tuple(outliers(accounts)))


def _account(number: int, figure: Spoken, before: SpokenLine | None, line: SpokenLine) -> Account:
    """A figure with what it is about: the words and ties of its line, and of the question it answers."""
    about = _keys(line)
    if before is not None and before.asks and before.recording == line.recording:
        about |= _keys(before)
    matters = frozenset(":".join(matter) for matter in line.matters)
    assert line.speaker is not None
    counted = next(iter(roots(line.text[figure.end :].partition(".")[0])), "") if not figure.unit else ""
    return Account(number, figure, line.speaker, about, matters, counted)


def _keys(line: SpokenLine) -> frozenset[str]:
    """The roots of a line's words, and its ties written as kind:reference."""
    return frozenset(roots(line.text)) | {":".join(matter) for matter in line.matters}
