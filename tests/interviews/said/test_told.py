"""The figures gathered from a collection: by rights, and fast."""

from __future__ import annotations

import datetime as dt
import time

import pytest

from archive.interviews.said.outline import outline_of
from archive.interviews.said.queries import SpokenLine, spoken
from archive.interviews.said.told import told, told_in
from archive.rights.decisions import Purpose, Role, Viewer
from archive.store.session import Store
from tests.conftest import TODAY

READER = Viewer(Role.READER, Purpose.RESEARCH, TODAY)


@pytest.mark.parametrize("viewer", [READER, Viewer(Role.GUIDE, Purpose.TOUR, TODAY)])
def test_closed_and_withdrawn_lines_give_no_figure(demo_home: Store, viewer: Viewer) -> None:
    """Neither the closed stretches of I-06, nor I-08 that was withdrawn, nor I-09 that is embargoed."""
    with demo_home.session() as session:
        found = told(session, viewer)
    assert {one.line.interview for one in found.figures}.isdisjoint({"I-08", "I-09"})
    assert not any(words in one.line.text for one in found.figures for words in ("Stallard", "Denzil", "seven stone"))


def test_an_embargo_that_ends_opens_its_figures(demo_home: Store) -> None:
    """I-09 is heard for research from May 2031."""
    later = Viewer(Role.READER, Purpose.RESEARCH, dt.date(2031, 5, 3))
    with demo_home.session() as session:
        assert "I-09" in {one.line.interview for one in told(session, later).figures}


def test_interviewers_tell_no_figures(demo_home: Store) -> None:
    """Who asks "in fifty-two?" has told nothing."""
    with demo_home.session() as session:
        assert not any(one.line.asks for one in told(session, READER).figures)
        assert any(line.asks for line in spoken(session, READER).lines)


def test_two_narrators_tell_two_years_of_the_power_lifter(demo_home: Store) -> None:
    """The planted disagreement is found, and first."""
    with demo_home.session() as session:
        found = told(session, READER)
    said = {(found.figures[a.number].line.who, a.figure.low) for a in found.disagreements[0].accounts}
    assert said == {("Osric Pell", 1952), ("Harbin Locke", 1956)}


def test_chapters_begin_at_open_lines_and_name_nothing_closed(demo_home: Store) -> None:
    """In I-06 two stretches are closed: no chapter begins in one, holds a word of one, or counts its talk."""
    with demo_home.session() as session:
        outline = outline_of(session, READER, "I-06-a")
        lines = [line for line in spoken(session, READER).lines if line.recording == "I-06-a"]
    assert len(outline.chapters) > 1
    assert {chapter.line for chapter in outline.chapters} <= set(lines)
    told_of = str([(chapter.phrases, chapter.named) for chapter in outline.chapters]).lower()
    assert not any(word in told_of for word in ("stallard", "denzil", "prowse", "bronchitis", "envelope", "hospital"))
    assert sum(outline.talk.values()) <= sum(line.end_ms - line.start_ms for line in lines)


def test_an_unnamed_narrator_stays_so(demo_home: Store) -> None:
    """The dipper talks and is named under the other name alone."""
    with demo_home.session() as session:
        outline = outline_of(session, READER, "I-07-a")
    assert "A worker in the dipping yard" in outline.talk
    assert "Stroud" not in str(outline)


def test_ten_thousand_lines_are_read_in_seconds() -> None:
    """Every line new, figures in half of them, disagreements looked for: processor time, since machines are shared."""
    said = ("We struck eight to twelve a minute at bench {0}, for seven and six a gross.",
            "And then the strip {0} came over from the left and you shifted it along.")  # fmt: skip
    lines = [
        SpokenLine(
            number, "I", "R", number, number + 1, number % 9, "", False, said[number % 2].format(number), frozenset()
        )
        for number in range(10_000)
    ]
    begun = time.process_time()
    assert len(told_in(lines).figures) >= 10_000
    assert time.process_time() - begun < 15
