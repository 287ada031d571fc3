"""The one way in which transcripts change: nothing is lost, whoever changes it, and nobody writes over another."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select

from archive.errors import Overtaken, Unacceptable
from archive.evidence.model import Evidence
from archive.interviews.model import Recording, Segment, Tie
from archive.interviews.transcripts import queries
from archive.interviews.transcripts.comparing import LineChange
from archive.interviews.transcripts.edits import go_back, keep_lines
from archive.interviews.transcripts.lines import Line, words
from archive.store.session import Store

REF = "I-1-a"


def recording_in(session: object) -> Recording:
    """The recording that these tests mend."""
    return session.scalars(select(Recording).where(Recording.ref == REF)).one()  # type: ignore[attr-defined]


def keep(store: Store, lines: list[Line], based_on: int = 0, who: str = "Jory", **more: object) -> int:
    """Keep lines as somebody, and commit."""
    with store.changing(who) as session:
        return keep_lines(session, recording_in(session), lines, who=who, said="Mended", based_on=based_on, **more)  # type: ignore[arg-type]


def lines_in(store: Store) -> list[Line]:
    """The lines as they stand."""
    with store.session() as session:
        return queries.lines_of(session, recording_in(session))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"start_ms": 5000, "end_ms": 5000}, "A line ends after it starts"),
        ({"end_ms": 99_000_000}, "The recording ends at"),
        ({"speaker": "P-none"}, "nobody has the reference"),
        ({"confidence": 1.5}, "from 0 to 1"),
        ({"text": "x" * 20_001}, "too long"),
    ],
)
def test_lines_that_cannot_be_are_refused(home: Store, change: dict[str, object], says: str) -> None:
    """Each fault is told with its line, and nothing is kept."""
    before = lines_in(home)
    with pytest.raises(Unacceptable, match=says):
        keep(home, [replace(before[0], **change), *before[1:]])  # type: ignore[arg-type]
    assert lines_in(home) == before


def test_lines_out_of_order_are_refused(home: Store) -> None:
    """Lines stand in order of their starts."""
    with pytest.raises(Unacceptable, match="before the line above it"):
        keep(home, lines_in(home)[::-1])


def test_nobody_writes_over_another(home: Store) -> None:
    """The second to keep from the same version is told who was first, and what they changed."""
    first = lines_in(home)
    keep(home, [replace(first[0], text="Mended."), *first[1:]], who="Bethan")
    with pytest.raises(Overtaken, match="Bethan changed 1 line of the transcript of I-1-a") as told:
        keep(home, [replace(first[0], text="Otherwise."), *first[1:]])
    change = told.value.changed[0]
    assert isinstance(change, LineChange)
    assert change.before
    assert change.after
    assert (change.before.text, change.after.text) == (first[0].text, "Mended.")
    assert lines_in(home)[0].text == "Mended."


def test_keeping_what_stands_makes_no_version(home: Store) -> None:
    """Nothing changed, nothing written."""
    assert keep(home, lines_in(home)) == 0


def test_the_first_change_keeps_what_was_before(home: Store) -> None:
    """Version 0 is the state before the first change; going back to it makes a version of its own."""
    before = lines_in(home)
    keep(home, [replace(before[0], text="Mended."), *before[1:]])
    with home.changing("Jory") as session:
        recording = recording_in(session)
        assert [kept.number for kept in queries.versions(session, recording)] == [1, 0]
        assert go_back(session, recording, 0, who="Jory", based_on=1) == 2
    assert lines_in(home) == before


def test_one_persons_deeds_of_a_minute_are_one_version(home: Store) -> None:
    """What one person keeps in quick succession is one version; another's deed begins a new one."""
    minute = dt.timedelta(minutes=1)
    lines = lines_in(home)
    for number, who in enumerate(["Jory", "Jory", "Bethan", "Jory"]):
        lines[0] = replace(lines[0], text=f"Mended {number}.")
        keep(home, lines, number, who, joined_within=minute)
    with home.session() as session:
        kept = queries.versions(session, recording_in(session))
        assert [(each.number, each.who) for each in kept] == [(4, "Jory"), (3, "Bethan"), (2, "Jory"), (0, "")]


def test_a_split_line_gives_its_ties_to_both_and_a_join_keeps_them(home: Store) -> None:
    """Split: the first part is the old segment, both parts have its ties. Joined again: one segment, each tie once."""
    with home.session() as session:
        tied = session.scalars(select(Tie.segment_id).where(Tie.segment_id.is_not(None))).first()
        count = len(queries.ties_on(session, [tied or 0]))
        recording_id = session.get(Segment, tied).recording_id  # type: ignore[union-attr]
        ref = session.get(Recording, recording_id).ref  # type: ignore[union-attr]
        assert count
        assert ref == REF
    lines = lines_in(home)
    at = next(place for place, line in enumerate(lines) if line.key == tied)
    whole, middle = lines[at], (lines[at].start_ms + lines[at].end_ms) // 2
    told = whole.text.split()
    parts = [
        replace(whole, end_ms=middle, text=" ".join(told[: len(told) // 2])),
        replace(whole, start_ms=middle, text=" ".join(told[len(told) // 2 :]), key=None),
    ]
    keep(home, [*lines[:at], *parts, *lines[at + 1 :]])
    split = lines_in(home)
    assert split[at].key == tied
    with home.session() as session:
        assert len(queries.ties_on(session, [split[at].key or 0])) == count
        assert len(queries.ties_on(session, [split[at + 1].key or 0])) == count
    keep(home, lines, 1)
    with home.session() as session:
        assert lines_in(home)[at].key == tied
        assert len(queries.ties_on(session, [tied or 0])) == count


def test_evidence_goes_to_the_line_over_the_same_time(home: Store) -> None:
    """A statement's evidence outlives its line: the line that took its words carries it on."""
    with home.session() as session:
        rests = session.scalars(select(Evidence.segment_id).where(Evidence.segment_id.is_not(None))).first()
    lines = lines_in(home)
    at = next(place for place, line in enumerate(lines) if line.key == rests)
    other = at - 1 if at else at + 1
    first, second = sorted((at, other))
    joined = replace(
        lines[other],
        start_ms=lines[first].start_ms,
        end_ms=lines[second].end_ms,
        text=f"{lines[first].text} {lines[second].text}",
    )
    keep(home, [*lines[:first], joined, *lines[second + 1 :]])
    with home.session() as session:
        assert rests not in session.scalars(select(Segment.id)).all()
        assert lines[other].key in session.scalars(select(Evidence.segment_id)).all()


WORDS = st.lists(st.sampled_from(["press", "stamp", "dust", "wages", "brass", "yard"]), max_size=5).map(" ".join)


@st.composite
def mended(draw: st.DrawFn, before: list[Line]) -> list[Line]:
    """The lines after any run of edits of the kinds that people make; some forget which line is which."""
    lines = list(before)
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(lines) - 1))
        line, deed = lines[at], draw(st.sampled_from(["text", "nudge", "split", "join", "forget"]))
        if deed == "text":
            lines[at] = replace(line, text=f"{line.text} {draw(WORDS)}".strip())
        elif deed == "nudge" and line.end_ms - line.start_ms > 200:
            lines[at] = replace(line, end_ms=line.end_ms - 100)
        elif deed == "split" and line.end_ms - line.start_ms > 200:
            told, cut = line.text.split(), draw(st.integers(1, line.end_ms - line.start_ms - 1)) + line.start_ms
            half = len(told) // 2
            lines[at : at + 1] = [
                replace(line, end_ms=cut, text=" ".join(told[:half])),
                replace(line, start_ms=cut, text=" ".join(told[half:]), key=None),
            ]
        elif deed == "join" and at + 1 < len(lines):
            after = lines[at + 1]
            end = max(line.end_ms, after.end_ms)
            lines[at : at + 2] = [replace(line, end_ms=end, text=f"{line.text} {after.text}")]
        elif deed == "forget":
            lines[at] = replace(line, key=None)
    return lines


@given(data=st.data())
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_whatever_is_mended_no_word_and_no_tie_is_lost(home: Store, data: st.DataObject) -> None:
    """After any edits: what stands is what was kept, every tie still stands, and all evidence leads to a line."""
    with home.changing("tests") as session:
        recording = recording_in(session)
        before = queries.lines_of(session, recording)
        ties = {_told(tie) for tie in queries.ties_on(session, [line.key or 0 for line in before])}
        evidence = len(session.scalars(select(Evidence.id).where(Evidence.segment_id.is_not(None))).all())
        lines = data.draw(mended(before))
        version = recording.transcript_version
        keep_lines(session, recording, lines, who="tests", said="Mended", based_on=version)
        after = queries.lines_of(session, recording)
        assert [line.bare for line in after] == [line.bare for line in lines]
        assert {_told(tie) for tie in queries.ties_on(session, [line.key or 0 for line in after])} == ties
        left = session.scalars(select(Evidence.segment_id).where(Evidence.segment_id.is_not(None))).all()
        assert len(left) == evidence
        assert set(left) <= set(session.scalars(select(Segment.id)))
        said = [word for line in before for word in words(line.text)]
        assert all(word in {word for line in after for word in words(line.text)} for word in said)
        session.rollback()


def _told(tie: Tie) -> tuple[str, object]:
    return tie.kind, tie.period or tie.target.id
