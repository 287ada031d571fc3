"""Captions, timed text, tables and plain text: their times and speakers, their letters, and what stands around them."""

from __future__ import annotations

import pytest

from archive.errors import Unacceptable
from archive.exchange.typed.model import Options
from archive.exchange.typed.reading import read_typed
from tests.exchange.typed.reading import out, said, understood

_TT = (
    '<tt xmlns="http://www.w3.org/ns/ttml" xmlns:ttp="http://www.w3.org/ns/ttml#parameter"'
    ' xmlns:ttm="http://www.w3.org/ns/ttml#metadata" ttp:frameRate="25">'
)
_HEAD = (
    '<head><metadata><ttm:title>A talk</ttm:title><ttm:agent xml:id="a" type="person">'
    '<ttm:name type="full">Ada Birch</ttm:name></ttm:agent></metadata></head>'
)


def timed(body: str) -> list[tuple[int | None, int | None, str, str]]:
    """The lines of a body of timed text."""
    found = understood(f"{_TT}{_HEAD}<body>{body}</body></tt>", "a.ttml")
    return [(line.start_ms, line.end_ms, line.speaker, line.text) for line in found.lines]


def test_captions_with_faults_tell_every_one() -> None:
    """By line, and nothing of the file is taken."""
    with pytest.raises(Unacceptable) as refused:
        read_typed(b"WEBVTT\n\n00:05.000 --> 00:01.000\nYes.\n\n9 --> 10\nNo.\n", "a.vtt")
    assert [fault.line for fault in refused.value.faults] == [3, 6]


def test_captions_give_times_voices_and_what_stands_around_them() -> None:
    """Numbers, remarks and the words at the head are left out and told."""
    found = understood(
        "WEBVTT a talk\n\n1\n00:01.000 --> 00:02.000\n<v Ada>Yes.\n\nNOTE loud here\n\n00:02.000 --> 00:04.000\nNo.\n",
        "a.vtt",
    )
    assert [(line.start_ms, line.end_ms, line.speaker, line.text) for line in found.lines] == [
        (1_000, 2_000, "Ada", "Yes."),
        (2_000, 4_000, "", "No."),
    ]
    assert [text for text, _why in out(found)] == ["a talk", "1", "NOTE loud here"]


def test_captions_without_voices_may_have_names_before_a_colon() -> None:
    """As many programs write them."""
    turns = ("ADA: Yes.", "NED: No.", "ADA: So.")
    text = "WEBVTT\n" + "".join(f"\n00:0{at}.000 --> 00:0{at + 1}.000\n{turn}\n" for at, turn in enumerate(turns))
    assert said(understood(text, "a.vtt")) == [("ADA", "Yes."), ("NED", "No."), ("ADA", "So.")]


def test_timed_text_tells_times_in_every_way() -> None:
    """Clock time with a fraction or frames, offsets, a length; and times inside what stands around (TTML2, 12.3.1)."""
    body = '<div begin="10s"><p begin="00:00:01.500" dur="500ms">One</p><p begin="50f" end="0.05m">Two</p></div>'
    assert timed(body) == [(11_500, 12_000, "", "One"), (12_000, 13_000, "", "Two")]
    assert timed('<p begin="00:00:02:05" end="00:00:03">Three</p>') == [(2_200, 3_000, "", "Three")]


def test_timed_text_in_turn_begins_where_the_last_ended() -> None:
    """`timeContainer="seq"` (TTML2, 12.2.4)."""
    body = '<div timeContainer="seq"><p dur="2s">One</p><p dur="3s">Two</p></div>'
    assert timed(body) == [(0, 2_000, "", "One"), (2_000, 5_000, "", "Two")]


def test_timed_text_names_speakers_and_leaves_out_what_is_about_it() -> None:
    """By agents; breaks are spaces, spans are words, titles are told."""
    body = '<p begin="1s" end="2s" ttm:agent="a">I <span>was</span><br/>there</p>'
    text = f"{_TT}{_HEAD}<body><div>{body}</div></body></tt>"
    found = understood(text, "a.ttml")
    assert said(found) == [("Ada Birch", "I was there")]
    assert out(found) == [("A talk", "it is written about the file, not said")]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_table_is_told_by_its_head(separator: str) -> None:
    """Whatever stands between the cells; a column for nothing is left out."""
    rows = [
        ("Timecode", "Speaker", "Transcript", "Mood"),
        ("00:01:05", "Ada", "Yes I was", "glad"),
        ("66.5", "Ned", "When", ""),
    ]
    found = understood("\n".join(separator.join(row) for row in rows), "a.csv")
    assert [(line.start_ms, line.speaker, line.text) for line in found.lines] == [
        (65_000, "Ada", "Yes I was"),
        (66_500, "Ned", "When"),
    ]
    assert ("glad", "in a column that is not taken") in out(found)


def test_a_cell_in_quotes_may_hold_anything() -> None:
    """Commas, quotes and line breaks."""
    found = understood('speaker,text\nAda,"He said, ""no""\nand left"\n', "a.csv")
    assert said(found) == [("Ada", 'He said, "no" and left')]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_letters_are_read_as_they_were_written(encoding: str) -> None:
    """UTF-8, UTF-16 with its mark, else Windows-1252, which is told."""
    found = understood("ADA: It cost £5 – café.\nNED: Yes.".encode(encoding))
    assert said(found)[0] == ("ADA", "It cost £5 – café.")
    assert bool(found.told) is (encoding == "cp1252")


def test_bytes_without_a_letter_in_windows_are_kept() -> None:
    """Nothing is dropped, even where nobody knows what it meant."""
    assert understood(b"ADA: a\x81b\xe9.\nNED: Yes.").lines[0].text == "a\x81b\xe9."


def test_lines_broken_at_a_width_run_on() -> None:
    """As a typewriter breaks them; a name or a time begins anew."""
    text = (
        "ADA: I was put on a press in the year that we moved, and it was\nlouder than anything that I had ever heard "
        "in my life until\nthen, I can tell you that for nothing, I can, and so it went\non.\n"
        "NED: When?\n"
    )
    assert [who for who, _text in said(understood(text, options=Options(split=False)))] == ["ADA", "NED"]
