"""How typed transcripts are understood: speakers, times, what is no words; and that nothing is ever lost."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive.exchange.typed.model import Block, Options, Raw, Times, Way
from archive.exchange.typed.understanding import understand
from tests.exchange.typed.documents import open_document, word
from tests.exchange.typed.reading import lost, out, said, understood

TWO = [("ADA", "I was put on a press."), ("NED", "When was that?"), ("ADA", "In 1952."), ("NED", "Was it loud?")]
FRONT = "A talk with Ada Birch\nDate: 3 May 2009\nTranscribed by: a typist\n\n"


@pytest.mark.parametrize(
    ("text", "way"),
    [
        ("ADA: I was put on a press.\n\nNED: When was that?\n\nADA: In 1952.\n\nNED: Was it loud?", Way.COLON),
        ("ADA  I was put on a press.\n\nNED  When was that?\n\nADA  In 1952.\n\nNED  Was it loud?", Way.CAPITALS),
        ("ADA\nI was put on a press.\nNED\nWhen was that?\nADA\nIn 1952.\nNED\nWas it loud?", Way.LINE),
        ("ADA:\nI was put on a press.\nNED:\nWhen was that?\nADA:\nIn 1952.\nNED:\nWas it loud?", Way.COLON),
    ],
)
def test_speakers_are_found_as_they_are_marked(text: str, way: Way) -> None:
    """By a colon, in capitals, alone on a line: the same talk each time, without its front matter."""
    found = understood(FRONT + text)
    assert (found.way, said(found)) == (way, TWO)
    assert {why for _text, why in out(found)} == {"before the first speaker or time"}


def test_a_colon_far_down_does_not_drop_the_talk_before_it() -> None:
    """Of a text without speakers, sixty sentences before two with a colon are words and no title page."""
    talk = [f"We made number {number} of them on a Monday." for number in range(60)]
    talk += ["For gilding metal: a little more.", "We stamped.", "For copper: a little less.", "We polished."]
    found = understood("\n\n".join(talk))
    assert out(found) == []
    assert len(found.lines) == 64


def test_questions_and_answers_are_two_speakers() -> None:
    """Q. and A., as typists of hearings write."""
    assert said(understood("Q. Where?\nA. At home.\nQ. When?\nA. Then.")) == [
        ("Q", "Where?"),
        ("A", "At home."),
        ("Q", "When?"),
        ("A", "Then."),
    ]


@pytest.mark.parametrize(
    "text", ["Well: it was loud.", "What he said was: no.", "I WAS there.", "It was 10:30 then.", "Yes"]
)
def test_words_are_not_taken_for_speakers(text: str) -> None:
    """A colon, capitals or a short line within what is said stay words."""
    found = understood(f"ADA: I was put on a press.\n\nNED: When?\n\n{text}\n\nADA: In 1952.")
    assert said(found)[2] == ("NED", text)


def test_a_text_without_speakers_or_times_is_all_words() -> None:
    """Nobody is made up, and nothing is front matter."""
    found = understood("I was put on a press.\n\nIt was loud there.")
    assert said(found) == [("", "I was put on a press."), ("", "It was loud there.")]
    assert out(found) == []


def test_paragraphs_below_a_speaker_are_the_same_speakers() -> None:
    """Each is a line of its own."""
    assert said(understood("ADA: One.\n\nTwo.\n\nNED: Three.")) == [("ADA", "One."), ("ADA", "Two."), ("NED", "Three.")]


def test_what_the_keeper_says_goes_before_the_rules() -> None:
    """A way, a label that is none, the first paragraph."""
    text = "Note to self\n\nADA: Yes.\n\nLATER: No.\n\nADA: So."
    assert said(understood(text, options=Options(speakers=Way.NONE)))[1] == ("", "ADA: Yes.")
    assert said(understood(text, options=Options(no_speakers=frozenset({"LATER"}))))[1] == ("ADA", "LATER: No.")
    found = understood(text, options=Options(first=5))
    assert said(found)[0] == ("LATER", "No.")
    assert out(found)[0] == ("Note to self", "before the first line that you chose")


def test_times_begin_lines_and_divide_them() -> None:
    """In brackets at the start or in the middle, after the name, or alone on a line for the next."""
    text = "[0:05] ADA: One (0:09) two.\n\nNED: [00:01:12.5] Three.\n\n1:20\n\nADA: Four.\n\n1:30\n\nFive."
    assert [(line.start_ms, line.speaker, line.text) for line in understood(text).lines] == [
        (5_000, "ADA", "One"),
        (9_000, "ADA", "two."),
        (72_500, "NED", "Three."),
        (80_000, "ADA", "Four."),
        (90_000, "ADA", "Five."),
    ]


def test_a_time_from_to_gives_the_end() -> None:
    """Between two times in one pair of brackets."""
    line = understood("[0:05 - 0:12] ADA: Yes.\n[0:12 - 0:20] NED: No.").lines[0]
    assert (line.start_ms, line.end_ms) == (5_000, 12_000)


def test_times_that_cannot_be_are_told() -> None:
    """One earlier than the one above, one after the end, one without words; the words stay."""
    text = "[0:10] ADA: One.\n\n[0:05] NED: Two.\n\n[9:00] ADA: Three.\n\n[0:20]"
    found = understood(text, options=Options(duration_ms=60_000))
    assert [line.start_ms for line in found.lines] == [10_000, None, None]
    assert out(found) == [
        ("[0:05]", "a time that is earlier than the one above it"),
        ("[9:00]", "a time after the end of the recording"),
        ("[0:20]", "a time without words"),
    ]


def test_a_time_of_day_that_is_spoken_of_stays_words() -> None:
    """In the middle, when it fits no place in the recording."""
    text = "[0:05] ADA: We went at noon (12:30) and came back.\n\n[0:20] NED: I see."
    found = understood(text, options=Options(duration_ms=60_000))
    assert found.lines[0].text == "We went at noon (12:30) and came back."


def test_hours_and_minutes_or_no_times_at_all() -> None:
    """As the keeper says what 1:30 means; what is not gone by is noted with the line."""
    text = "[0:05] ADA: One.\n\n[1:30] NED: Two."
    hours = understood(text, options=Options(times=Times.HOURS))
    assert [line.start_ms for line in hours.lines] == [300_000, 5_400_000]
    none = understood(text, options=Options(times=Times.NONE))
    assert [(line.start_ms, line.note) for line in none.lines] == [(None, "[0:05]"), (None, "[1:30]")]


def test_marks_of_what_was_not_heard_are_written_one_way() -> None:
    """The file's own mark is noted; what the typist tells of a voice stays in the words."""
    line = understood("ADA: It was (indistinct) loud (laughs).\nNED: Yes.").lines[0]
    assert (line.text, line.note) == ("It was [inaudible] loud (laughs).", "(indistinct)")


def test_page_numbers_heads_and_tapes_are_left_out() -> None:
    """Numbers that count up, lines that come on every page, the end of a tape; a year that is an answer is not."""
    pages = "\n\n".join(
        f"Ada Birch, interview {page}\n\nADA: Word {page}.\n\nNED: When?\n\n1952\n\n{page}" for page in (1, 2, 3)
    )
    found = understood(f"{pages}\n\nEND OF TAPE 1, SIDE A")
    reasons = {why for _text, why in out(found)}
    assert reasons == {
        "a page number",
        "it comes again and again, as the head or foot of a page",
        "a word on the tape",
    }
    assert [text for _who, text in said(found)] == [
        "Word 1.",
        "When?",
        "1952",
        "Word 2.",
        "When?",
        "1952",
        "Word 3.",
        "When?",
        "1952",
    ]


def test_an_answer_that_comes_often_is_no_head_of_a_page() -> None:
    """Short lines that people say again and again are words."""
    text = "\n\n".join("NED: Was it?\n\nADA: Well\n\nOh yes it was" for _ in range(5))
    assert out(understood(text)) == []


def test_long_paragraphs_are_cut_at_ends_of_sentences() -> None:
    """Unless the keeper wants them whole."""
    long = " ".join(f"Sentence number {number} has quite a few words in it." for number in range(30))
    pieces = understood(f"ADA: {long}\nNED: Yes.").lines[:-1]
    assert all(len(piece.text.split()) <= 60 and piece.text.endswith(".") for piece in pieces)
    assert " ".join(piece.text for piece in pieces) == long
    assert len(understood(f"ADA: {long}\nNED: Yes.", options=Options(split=False)).lines) == 2


_WORDS = st.lists(
    st.sampled_from(["press", "yes", "1952", "loud", "[0:07]", "(12:30)", "(laughs)", "[inaudible]", "Ned:", "A."]),
    min_size=1,
    max_size=12,
)
_LABEL = st.sampled_from(
    ["ADA:", "NED:", "Ada Birch:", "Q.", "[0:05] ADA:", "0:10", "Page 2", "3", "END OF TAPE", "ADA", "Note:", ""]
)
_TURNS = st.lists(st.tuples(_LABEL, _WORDS.map(" ".join) | st.just("")), min_size=1, max_size=12)
_OPTIONS = st.builds(
    Options,
    speakers=st.sampled_from(list(Way)),
    times=st.sampled_from(list(Times)),
    first=st.integers(0, 6),
    split=st.booleans(),
    duration_ms=st.none() | st.integers(1_000, 1_000_000),
    no_speakers=st.frozensets(st.sampled_from(["ADA", "NED", "Q"])),
)


@settings(max_examples=300, deadline=None)
@given(turns=_TURNS, options=_OPTIONS)
def test_no_word_of_a_text_is_lost(turns: list[tuple[str, str]], options: Options) -> None:
    """Lines, speakers, notes and what is left out carry every word, however the file is understood."""
    lines = [f"{label} {words}".strip() for label, words in turns]
    if any(lines):
        assert lost(lines, understood("\n".join(lines), options=options)) == {}


@settings(max_examples=25, deadline=None)
@given(turns=_TURNS, options=_OPTIONS)
def test_no_word_of_a_document_is_lost(turns: list[tuple[str, str]], options: Options) -> None:
    """The same for Word and OpenDocument with names in bold."""
    lines = [f"{label} {words}" for label, words in turns]
    if any(line.strip() for line in lines):
        assert lost(lines, understood(word(turns), "a.docx", options)) == {}
        assert lost(lines, understood(open_document(turns), "a.odt", options)) == {}


_CELLS = st.sampled_from(
    ["0:05", "12.5", "ADA", "NED", "words", "I was put on a press", "start", "text", "speaker", ""]
)


@settings(max_examples=200, deadline=None)
@given(
    rows=st.integers(2, 5).flatmap(
        lambda width: st.lists(st.lists(_CELLS, min_size=width, max_size=width), min_size=1, max_size=8)
    ),
    columns=st.dictionaries(st.sampled_from(["start", "end", "speaker", "text"]), st.integers(-1, 5)),
)
def test_no_word_of_a_table_is_lost(rows: list[list[str]], columns: dict[str, int]) -> None:
    """Times that are taken are known by their milliseconds; every other cell is there."""
    blocks = tuple(Block(f"row {at}", cells=tuple(row)) for at, row in enumerate(rows))
    found = understand(Raw("csv", blocks), Options(columns=columns))
    cells = [cell for row in rows for cell in row if cell not in ("0:05", "12.5")]
    assert lost(cells, found) == {}
