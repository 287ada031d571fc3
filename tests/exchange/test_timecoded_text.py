"""The time-coded text that transcribers send, in the ways they write it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.exchange.cues import Cue
from archive.exchange.faults import FaultList
from archive.exchange.timecoded_text import parse_timecoded

END = 4_000_000


def read(text: str, known: tuple[str, ...] = ()) -> list[tuple[int, int, str, str]]:
    """The segments of a text without faults."""
    faults = FaultList()
    cues = parse_timecoded(text, "t.txt", END, faults, known)
    assert faults.faults == []
    return [(cue.start_ms, cue.end_ms, cue.speaker, cue.text) for cue in cues]


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("Recorded in May\n[0:01] a", 1, "before the first time"),
        ("[0:01] a\n[0:61] b", 2, "is not a time"),
        ("[0:05] a\n[0:01] b", 1, "Times rise"),
        ("[0:05] a\n[0:05] b", 1, "Times rise"),
        ("[0:05]\n[0:06] b", 1, "without words"),
        ("[9:59:59] a", 1, "inside the recording"),
        ("[0:01] ADA: a\nNED: b", 2, "speaks here without a time"),
        ("[0:01] Ada: a\n[0:03] Ned: b\nAda: c", 3, "speaks here without a time"),
    ],
)
def test_what_has_no_sure_time_is_told(text: str, line: int, says: str) -> None:
    """Words that cannot be placed in time are a fault at their line."""
    faults = FaultList()
    parse_timecoded(text, "t.txt", END, faults)
    assert [fault for fault in faults.faults if fault.line == line and says in str(fault)]


@pytest.mark.parametrize(
    ("text", "segments"),
    [
        ("[0:05] a", [(5000, END, "", "a")]),
        ("[1:02:03] a", [(3_723_000, END, "", "a")]),
        ("(00:12:05) a", [(725_000, END, "", "a")]),
        ("[0:05.5] a", [(5500, END, "", "a")]),
        ("[0:05] ADA BIRCH: a", [(5000, END, "ADA BIRCH", "a")]),
        ("[0:05] P-1: a", [(5000, END, "P-1", "a")]),
        ("P-1: [0:05] a", [(5000, END, "P-1", "a")]),
        ("P-1: (0:05) a", [(5000, END, "P-1", "a")]),
        ("[0:05]\nADA words", [(5000, END, "", "ADA words")]),
        ("[0:05] there were two kinds: big and small", [(5000, END, "", "there were two kinds: big and small")]),
        ("[0:05] a\nb\n\nc", [(5000, END, "", "a b c")]),
        ("[0:05] a\n[0:07] b", [(5000, 7000, "", "a"), (7000, END, "", "b")]),
        ("\ufeff[0:05] a\r\n[0:07] b\r\n", [(5000, 7000, "", "a"), (7000, END, "", "b")]),
        ("[0:05] <b>a</b> & b", [(5000, END, "", "<b>a</b> & b")]),
        ("", []),
    ],
)
def test_each_way_of_writing_is_read(text: str, segments: list[tuple[int, int, str, str]]) -> None:
    """Times in either bracket, with or without a speaker, and paragraphs that run on; markup stays plain text."""
    assert read(text) == segments


def test_a_known_label_is_a_speaker_however_it_looks() -> None:
    """A label that people.csv knows needs no capital letter."""
    assert read("[0:05] the old foreman of us: a", ("the old foreman of us",))[0][2] == "the old foreman of us"


@given(st.text() | st.text(st.sampled_from("[]():0123456789 ABab\n.,")))
def test_any_text_gives_segments_or_faults(text: str) -> None:
    """No text ends in another error, and what comes out lies in order inside the recording."""
    cues: list[Cue] = parse_timecoded(text, "t.txt", END, FaultList())
    assert all(0 <= cue.start_ms < cue.end_ms and cue.text for cue in cues)
