"""A generated collection for the benchmarks: many interviews with agreements and closures, words after Zipf's law."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

import numpy as np
from sqlalchemy import insert

from archive.interviews.model import Interview, Recording, Segment, interview_narrator
from archive.people.model import Person
from archive.rights.decisions import AGREED, Purpose, Role, Viewer
from archive.rights.model import Agreement, Closure, Permission
from archive.store.model import KeptFile
from archive.store.session import Store

SEED = 1868
TYPES = 40_000
WORDS_IN_SEGMENT = 30
SEGMENTS_IN_INTERVIEW = 100
NARRATORS = 200
SEGMENT_MS = 12_000
SOUND = "0" * 64
VIEWER = Viewer(Role.READER, Purpose.RESEARCH, dt.date(2026, 11, 25))
QUERIES = 24


@dataclass(frozen=True)
class Text:
    """The words of a collection: the vocabulary by rank, and each segment as numbers of words."""

    vocabulary: list[str]
    segments: np.ndarray[Any, np.dtype[np.int64]]

    def line(self, number: int) -> str:
        """The text of one segment."""
        return " ".join(self.vocabulary[word] for word in self.segments[number])


def generated_text(segments: int) -> Text:
    """Words after Zipf's law, always the same."""
    chance = np.random.default_rng(SEED)
    ranks = np.arange(1, TYPES + 1)
    share = 1 / (ranks + 2.7)
    words = chance.choice(TYPES, size=(segments, WORDS_IN_SEGMENT), p=share / share.sum())
    return Text(_vocabulary(chance), words)


def _vocabulary(chance: np.random.Generator) -> list[str]:
    """Words made of syllables, no two alike."""
    first, middle, last = (
        ["b", "br", "d", "dr", "f", "g", "gl", "h", "k", "l", "m", "n", "p", "pl", "r", "s", "st", "t", "v", "w"],
        list("aeiou"),
        ["n", "r", "l", "m", "d", "k", "t", "p"],
    )
    found: dict[str, None] = {}
    while len(found) < TYPES:
        count = int(chance.integers(2, 5))
        picks = zip(chance.integers(len(first), size=count), chance.integers(5, size=count), strict=True)
        word = "".join(first[one] + middle[two] for one, two in picks) + last[int(chance.integers(len(last)))]
        found[word] = None
    return list(found)


def fill(store: Store, text: Text) -> None:
    """Write the collection: one interview in twenty is closed, and one recording in ten has a closure."""
    count = len(text.segments)
    interviews = range(1, count // SEGMENTS_IN_INTERVIEW + 1)
    with store.changing("benchmark") as session:
        session.execute(insert(KeptFile), [{"sha256": SOUND, "size": 1, "media_type": "audio/flac"}])
        session.execute(insert(Person), [_person(key) for key in range(1, NARRATORS + 1)])
        session.execute(insert(Interview), [_interview(key) for key in interviews])
        told = [{"interview_id": key, "person_id": _narrator(key)} for key in interviews]
        session.execute(insert(interview_narrator), told)
        session.execute(insert(Agreement), [{"id": key, "interview_id": key} for key in interviews])
        session.execute(insert(Permission), [_permission(key, each) for key in interviews for each in AGREED])
        session.execute(insert(Recording), [_recording(key) for key in interviews])
        closed = [{"recording_id": key, "start_ms": 60_000, "end_ms": 90_000} for key in interviews if key % 10 == 0]
        session.execute(insert(Closure), closed)
        session.execute(insert(Segment), [_segment(number, text) for number in range(count)])


def _narrator(interview: int) -> int:
    return interview % NARRATORS + 1


def _person(key: int) -> dict[str, Any]:
    return {"id": key, "ref": f"P-{key}", "name": f"Narrator {key}", "roles": ["narrator"]}


def _interview(key: int) -> dict[str, Any]:
    return {"id": key, "ref": f"I-{key}", "title": f"Interview {key}", "language": "en-GB"}


def _permission(key: int, purpose: Purpose) -> dict[str, Any]:
    return {"agreement_id": key, "purpose": purpose.value, "allowed": key % 20 != 0}


def _recording(key: int) -> dict[str, Any]:
    return {
        "id": key,
        "ref": f"I-{key}-a",
        "interview_id": key,
        "position": 1,
        "master_name": "audio.flac",
        "master_sha256": SOUND,
        "duration_ms": SEGMENT_MS * SEGMENTS_IN_INTERVIEW,
        "codec": "flac",
        "sample_rate": 16_000,
        "channels": 1,
    }


def _segment(number: int, text: Text) -> dict[str, Any]:
    interview, position = divmod(number, SEGMENTS_IN_INTERVIEW)
    return {
        "id": number + 1,
        "recording_id": interview + 1,
        "position": position,
        "start_ms": position * SEGMENT_MS,
        "end_ms": (position + 1) * SEGMENT_MS,
        "speaker_id": _narrator(interview + 1),
        "text": text.line(number),
    }


def questions(text: Text) -> dict[str, list[str]]:
    """Twenty-four questions of each class, always the same."""
    chance = np.random.default_rng(SEED + 1)
    words, lines = text.vocabulary, text.segments
    picked = chance.integers(len(lines), size=(3, QUERIES))
    places = chance.integers(WORDS_IN_SEGMENT - 3, size=(2, QUERIES))
    common = chance.choice(np.arange(5, 200), QUERIES, replace=False)
    rare = chance.choice(np.arange(8_000, 30_000), QUERIES, replace=False)
    begun = chance.choice(np.arange(50, 3_000), QUERIES, replace=False)
    return {
        "common word": [words[rank] for rank in common],
        "rare word": [words[rank] for rank in rare],
        "two words": [" ".join(words[word] for word in _two_common(lines[line])) for line in picked[0]],
        "phrase": [
            '"' + " ".join(words[word] for word in lines[line][at : at + 2 + number % 2]) + '"'
            for number, (line, at) in enumerate(zip(picked[1], places[0], strict=True))
        ],
        "prefix": [words[rank][:4] + "*" for rank in begun],
    }


def _two_common(line: Any) -> list[int]:
    """The two commonest different words of a line."""
    return sorted(set(line.tolist()))[:2]
