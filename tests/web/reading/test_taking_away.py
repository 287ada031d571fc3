"""Transcripts to take away."""

from __future__ import annotations

import io

import pytest
import webvtt

from tests.conftest import SignIn
from tests.small_collection import CLOSED_WORD, UNNAMED


def test_the_text_holds_only_what_is_open(as_role: SignIn) -> None:
    """The text is headed by its citation, says that something is closed, and has each line at its time."""
    answer = as_role("reader").get("/reading/recordings/I-1-a.txt")
    text = answer.get_data(as_text=True)
    assert answer.headers["Content-Disposition"] == "attachment; filename=I-1-a.txt"
    assert answer.mimetype == "text/plain"
    assert CLOSED_WORD not in text
    head, spoken = text.split("\n\n")
    assert head.splitlines()[1:] == ["The voice is a tone.", "Some passages are closed and are left out."]
    assert spoken.splitlines() == [
        "[0:00] Ned Sallow: Can you tell me about the first morning?",
        "[0:04] Ada Birch: I was put on a fly press & told to keep my fingers out.",
        "[0:12] We called the brass yella. Set your own tool? Always.",
        "[0:18] Someone at the door: Are you two still at it?",
    ]


def test_the_captions_are_read_by_another_library(as_role: SignIn) -> None:
    """The WebVTT is what a general reader takes it for: cues at their times, with voices, and nothing closed."""
    answer = as_role("reader").get("/reading/recordings/I-1-a.vtt")
    assert answer.headers["Content-Disposition"] == "attachment; filename=I-1-a.vtt"
    assert answer.mimetype == "text/vtt"
    cues = list(webvtt.from_buffer(io.StringIO(answer.get_data(as_text=True))))
    assert [cue.start for cue in cues] == ["00:00:00.000", "00:00:04.000", "00:00:12.000", "00:00:18.500"]
    assert cues[1].voice == "Ada Birch"
    assert not any(CLOSED_WORD in cue.text for cue in cues)


@pytest.mark.parametrize("form", ["txt", "vtt"])
def test_an_unnamed_narrator_stays_so_in_the_file(as_role: SignIn, form: str) -> None:
    """The kept name is in no file that leaves the house."""
    text = as_role("keeper").get(f"/reading/recordings/I-2-a.{form}").get_data(as_text=True)
    assert "A hand in the loft" in text
    assert not any(part in text for part in UNNAMED.split())
