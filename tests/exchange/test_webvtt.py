"""WebVTT by the W3C's rules: what may be written is read, what a reader would drop is told, and it comes back alike."""

from __future__ import annotations

import io

import pytest
import webvtt as general_reader
from hypothesis import given
from hypothesis import strategies as st

from archive.errors import Fault
from archive.exchange.cues import Cue, one_line
from archive.exchange.faults import FaultList
from archive.exchange.webvtt import parse_webvtt, write


def read(text: str) -> list[Cue]:
    """The cues of a text that has no faults."""
    faults = FaultList()
    cues = parse_webvtt(text, "t.vtt", faults)
    assert faults.faults == []
    return cues


def faults_of(text: str) -> list[Fault]:
    """The faults of a text."""
    faults = FaultList()
    parse_webvtt(text, "t.vtt", faults)
    return faults.faults


def one(payload: str, timing: str = "00:01.000 --> 00:02.000") -> str:
    """A file of one cue."""
    return f"WEBVTT\n\n{timing}\n{payload}\n"


REFUSED = {
    "4.1: no magic word": ("", 1),
    "4.1: magic word in small letters": ("webvtt\n\n", 1),
    "4.1: magic word run on": ("WEBVTT:\n\n", 1),
    "4.1: no empty line after the head": ("WEBVTT\n00:01.000 --> 00:02.000\na\n", 2),
    "4.1: words of no cue": ("WEBVTT\n\nwords\n", 3),
    "4.1: an identifier and nothing else": ("WEBVTT\n\n1\n\n00:01.000 --> 00:02.000\na\n", 3),
    "4.1: style after a cue": (one("a") + "\nSTYLE\n::cue{}\n", 6),
    "4.1: an arrow in a remark": ("WEBVTT\n\nNOTE -->\n", 3),
    "4.1: two arrows": (one("a", "00:01.000 --> 00:02.000 --> 00:03.000"), 3),
    "4.1: a cue above its place": (one("a", "00:05.000 --> 00:06.000") + "\n00:01.000 --> 00:02.000\nb\n", 6),
    "4.2.2: an ampersand": (one("fish & chips"), 4),
    "4.2.2: an unknown entity": (one("&fish;"), 4),
    "4.2.2: a numbered zero": (one("&#0;"), 4),
    "4.2.2: a bare angle": (one("a < b"), 4),
    "4.2.2: an unknown tag": (one("<blink>a</blink>"), 4),
    "4.2.2: tags crossed": (one("<b><i>a</b></i>"), 4),
    "4.2.2: not closed": (one("<u>a"), 4),
    "4.2.2: a voice without a name": (one("<v>a"), 4),
    "4.2.2: a language without one": (one("<lang>a</lang>"), 4),
    "4.2.2: ruby text outside ruby": (one("<rt>a</rt>"), 4),
    "4.2.2: times that fall": (one("<00:00:01.500>a<00:00:01.200>b"), 4),
    "4.2.2: an arrow in the words": (one("a --> b"), 4),
    "4.4: an unknown setting": (one("a", "00:01.000 --> 00:02.000 colour:red"), 3),
    "4.4: an old word for the middle": (one("a", "00:01.000 --> 00:02.000 align:middle"), 3),
    "4.4: more than all": (one("a", "00:01.000 --> 00:02.000 size:101%"), 3),
    "6.3: a comma before the fraction": (one("a", "00:01,000 --> 00:02,000"), 3),
    "6.3: two digits of fraction": (one("a", "00:01.00 --> 00:02.00"), 3),
    "6.3: sixty seconds": (one("a", "00:59.000 --> 00:60.000"), 3),
    "6.3: sixty minutes": (one("a", "00:60:00.000 --> 00:61:00.000"), 3),
    "6.3: no minutes": (one("a", "01.000 --> 02.000"), 3),
    "6.3: an end at its start": (one("a", "00:01.000 --> 00:01.000"), 3),
    "no words": (one("<v Ada></v>"), 3),
}


@pytest.mark.parametrize(("text", "line"), REFUSED.values(), ids=REFUSED.keys())
def test_what_a_reader_would_drop_is_told_with_its_line(text: str, line: int) -> None:
    """Each slip against a section of the W3C text is a fault on its own line."""
    assert line in [fault.line for fault in faults_of(text)]


# Short texts of our own, each by the rule of one section of the W3C text (Candidate Recommendation, 4 April 2019).
TAKEN = {
    "4.1: words after the magic word": ("WEBVTT - hand press\n\n00:01.000 --> 00:02.000\na", [("", "a")]),
    "4.1: a byte order mark": ("\ufeffWEBVTT\n\n00:01.000 --> 00:02.000\na\n", [("", "a")]),
    "4.1: lines that end in CR LF": ("WEBVTT\r\n\r\n00:01.000 --> 00:02.000\r\na\r\n", [("", "a")]),
    "4.1: lines that end in CR": ("WEBVTT\r\r00:01.000 --> 00:02.000\ra\r", [("", "a")]),
    "4.1: a remark": ("WEBVTT\n\nNOTE checked\nby N.S.\n\n00:01.000 --> 00:02.000\na\n", [("", "a")]),
    "4.1: style and region": (
        "WEBVTT\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:r\nwidth:40%\n\n00:01.000 --> 00:02.000 region:r\na\n",
        [("", "a")],
    ),
    "4.1: an identifier": ("WEBVTT\n\npress 1\n00:01.000 --> 00:02.000\na\n", [("", "a")]),
    "4.1: no cue at all": ("WEBVTT", []),
    "4.2.2: two lines": (one("a\nb"), [("", "a b")]),
    "4.2.2: a voice, its end left out": (one("<v Ada>a"), [("Ada", "a")]),
    "4.2.2: a voice with classes": (one("<v.loud.first Ada Birch>a</v>"), [("Ada Birch", "a")]),
    "4.2.2: an entity in a voice": (one("<v Marl &amp; Fenn>a</v>"), [("Marl & Fenn", "a")]),
    "4.2.2: two voices": (one("<v Ada>a</v>\n<v Ned>b</v>"), [("Ada", "a"), ("Ned", "b")]),
    "4.2.2: spans in spans": (one("<c.x><i>a <b>b</b></i></c> <u>c</u>"), [("", "a b c")]),
    "4.2.2: ruby": (one("<ruby>a<rt>b</rt></ruby>"), [("", "ab")]),
    "4.2.2: a language": (one("<lang en-GB>a</lang>"), [("", "a")]),
    "4.2.2: times inside": (one("a <00:00:01.500>b"), [("", "a b")]),
    "4.2.2: the six entities": (one("&amp;&lt;&gt;&lrm;&rlm;&nbsp;x"), [("", "&<>\u200e\u200f\u00a0x")]),
    "4.2.2: a letter by number": (one("&#233;&#xE9;&eacute;"), [("", "ééé")]),
    "4.4: every setting": (
        one("a", "00:01.000 --> 00:02.000 vertical:rl line:0,start position:10%,line-left size:35.5% align:start"),
        [("", "a")],
    ),
    "6.3: hours": (one("a", "01:00:00.000 --> 100:00:00.000"), [("", "a")]),
    "6.3: no space around the arrow": (one("a", "00:01.000-->00:02.000"), [("", "a")]),
    "6.3: tabs around the arrow": (one("a", "00:01.000\t-->\t00:02.000"), [("", "a")]),
}


@pytest.mark.parametrize(("text", "said"), TAKEN.values(), ids=TAKEN.keys())
def test_what_the_rules_allow_is_read(text: str, said: list[tuple[str, str]]) -> None:
    """Voices and plain words come out as the rule of each section has them."""
    assert [(cue.speaker, cue.text) for cue in read(text)] == said


def test_times_are_whole_milliseconds() -> None:
    """Hours, minutes, seconds and thousandths all count."""
    (cue,) = read(one("a", "01:02:03.004 --> 01:02:03.005"))
    assert (cue.start_ms, cue.end_ms) == (3_723_004, 3_723_005)


# Anything that a transcript may hold: marks of the format itself among it.
WORDS = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")) | st.sampled_from("<>&-"), max_size=60).map(
    one_line
)
CUES = st.lists(st.tuples(st.integers(0, 5000), st.integers(1, 5000), WORDS, WORDS.filter(bool)), max_size=8)


def cues_in_order(parts: list[tuple[int, int, str, str]]) -> list[Cue]:
    """Cues of increasing start."""
    cues, start = [], 0
    for gap, length, speaker, text in parts:
        start += gap
        cues.append(Cue(start, start + length, speaker, text))
    return cues


@given(CUES)
def test_what_is_written_is_read_again(parts: list[tuple[int, int, str, str]]) -> None:
    """Writing and reading change no letter of any words, whatever marks they hold."""
    cues = cues_in_order(parts)
    assert read(write(cues)) == cues


PLAIN = st.text(st.characters(categories=("L", "N")) | st.just(" "), max_size=30).map(one_line).filter(bool)


@given(st.lists(st.tuples(st.integers(0, 500), st.integers(1, 500), PLAIN, PLAIN), min_size=1, max_size=6))
def test_a_general_reader_reads_the_same(parts: list[tuple[int, int, str, str]]) -> None:
    """What we write means the same to a reader that others wrote."""
    cues = cues_in_order(parts)
    others = general_reader.from_buffer(io.StringIO(write(cues)), format="vtt")
    assert [(other.voice, other.text) for other in others] == [(cue.speaker, cue.text) for cue in cues]
    clocks = [
        f"{ms // 3600000:02d}:{ms // 60000 % 60:02d}:{ms // 1000 % 60:02d}.{ms % 1000:03d}" for ms in starts(cues)
    ]
    assert [other.start for other in others] == clocks


def starts(cues: list[Cue]) -> list[int]:
    """When each cue starts."""
    return [cue.start_ms for cue in cues]


@given(st.text() | st.text(st.sampled_from("WEBVT\n\r <>&;v/.:0123456789->NOTESTYLE ")))
def test_any_text_gives_cues_or_faults(text: str) -> None:
    """No text ends in another error, and every cue that comes out has words and length."""
    faults = FaultList()
    for cue in parse_webvtt("WEBVTT\n\n" + text, "t.vtt", faults):
        assert cue.text
        assert cue.start_ms < cue.end_ms
    parse_webvtt(text, "t.vtt", faults)
