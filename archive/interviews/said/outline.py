"""The proposed chapters of a recording, of its open lines, with what is named in each; who talks how long."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.interviews.said.keywords import Rarity, root, roots
from archive.interviews.said.known import Names, names_known
from archive.interviews.said.queries import SpokenLine, spoken
from archive.interviews.said.talk_time import talk_time
from archive.interviews.said.topics import Chapter, chapters
from archive.interviews.transcripts.suggesting import Known
from archive.rights.decisions import Viewer
from archive.store.freshness import memory

_WORD = re.compile(r"[A-Za-z]{3,}")
_TERM = "term:"


@dataclass(frozen=True)
class Proposed:
    """A proposed chapter: its first line, its key phrases (terms among them), and what else is named in it."""

    line: SpokenLine
    phrases: tuple[str | Known, ...]
    named: tuple[Known, ...]


@dataclass(frozen=True)
class Outline:
    """What may help to find one's way in a recording."""

    chapters: tuple[Proposed, ...]
    talk: dict[str, int]


def outline_of(session: Session, viewer: Viewer, recording: str) -> Outline:
    """The outline of a recording by reference, made of its open lines alone."""
    names = names_known(session, viewer)
    lines = [line for line in spoken(session, viewer).lines if line.recording == recording]
    keys = [_keys(line.text, names) for line in lines]
    rarity = _rarity(session, viewer, names)
    trade = frozenset(key for line in keys for key in line if key.startswith(_TERM))
    found = chapters(keys, rarity, trade)
    talk = talk_time((line.who, line.start_ms, line.end_ms) for line in lines)
    return Outline(tuple(_proposed(chapter, lines, names) for chapter in found), talk)


def _rarity(session: Session, viewer: Viewer, names: Names) -> Rarity:
    """How rare each key is in all the open lines."""
    held = memory(session)
    key = ("rarity", viewer)
    if key not in held:
        held[key] = Rarity([_keys(line.text, names) for line in spoken(session, viewer).lines])
    found: Rarity = held[key]
    return found


def _keys(text: str, names: Names) -> tuple[str, ...]:
    """The thesaurus's words in a line, and the roots of what is left."""
    spots = names.terms_in(text)
    rest = text
    for spot in reversed(spots):
        rest = f"{rest[: spot.start]} {rest[spot.end :]}"
    return (*(f"{_TERM}{names.terms[spot.key].ref}" for spot in spots), *roots(rest))


def _proposed(chapter: Chapter, lines: Sequence[SpokenLine], names: Names) -> Proposed:
    mine = lines[chapter.first : chapter.after]
    text = "\n".join(line.text for line in mine)
    terms = {f"{_TERM}{term.ref}": term for term in names.terms}
    said = Counter(word.lower() for word in _WORD.findall(text))
    phrases = tuple(terms[key] if key in terms else _as_said(key, said) for key in chapter.keys)
    return Proposed(mine[0], phrases, tuple(names.others_in(text)))


def _as_said(key: str, said: Counter[str]) -> str:
    """A root as the chapter itself says it most."""
    return next((word for word, _count in said.most_common() if root(word) == key), key)
