"""Words joined to lines, and the words that a model is told beforehand."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from archive.audio.drafting.hot_words import MOST_LETTERS, hot_words
from archive.audio.drafting.lines import LONGEST_MS, lines_of
from archive.audio.drafting.model import SaidWord


def spoken(text: str, *, start_ms: int = 0, each_ms: int = 300, probability: float = 0.9) -> list[SaidWord]:
    """The words of a text, one after the other."""
    return [
        SaidWord(f" {word}", start_ms + at * each_ms, start_ms + (at + 1) * each_ms, probability)
        for at, word in enumerate(text.split())
    ]


def test_no_words_are_no_lines() -> None:
    """Nor is white space alone."""
    assert lines_of([]) == []
    assert lines_of([SaidWord(" ", 0, 100, 1.0)]) == []


def test_a_sentence_is_a_line() -> None:
    """Where a breath follows it, or it has lasted; not after a word or two. A long silence always ends a line."""
    words = [
        *spoken("Mr. Pell said so."),
        *spoken("Did he? He did. And more. They both did, and every one of them.", start_ms=1_700),
        *spoken("And that", start_ms=6_000),
        *spoken("was that", start_ms=9_000),
    ]
    told = [
        "Mr. Pell said so.",
        "Did he? He did. And more. They both did, and every one of them.",
        "And that",
        "was that",
    ]
    assert [line.text for line in lines_of(words)] == told
    assert [(line.start_ms, line.end_ms) for line in lines_of(words)][2] == (6_000, 6_600)


def test_a_long_sentence_is_cut_at_its_longest_silence() -> None:
    """So that no line is longer than a person can take in."""
    first, second = spoken("we rolled it and we cut it " * 5), spoken("and then we struck it " * 5, start_ms=11_400)
    lines = lines_of([*first, *second])
    assert [line.start_ms for line in lines] == [0, 11_400]
    assert all(line.end_ms - line.start_ms <= LONGEST_MS for line in lines)


def test_confidence_is_the_mean_of_the_words() -> None:
    """A line with words that the model was unsure of is in doubt."""
    mumbled = spoken("A mumbled one.", start_ms=3_000, probability=0.4)
    sure, unsure = lines_of([*spoken("We cut it.", probability=0.95), *mumbled])
    assert (sure.confidence, sure.doubtful) == (0.95, False)
    assert (unsure.confidence, unsure.doubtful) == (0.4, True)


def test_few_words_in_a_long_stretch_are_in_doubt() -> None:
    """However sure the model is: it writes a word or two where it understands nothing."""
    (line,) = lines_of([SaidWord(" Chasing.", 0, 900, 0.99), SaidWord(" Chasing.", 1_000, 9_000, 0.99)])
    assert (line.confidence, line.doubtful) == (0.99, True)


@given(st.lists(st.tuples(st.sampled_from([" a", " b.", " c,"]), st.integers(0, 9_000), st.integers(1, 9_000))))
def test_no_word_is_lost_and_lines_stand_in_order(told: list[tuple[str, int, int]]) -> None:
    """Whatever the silences and the lengths."""
    words, at = [], 0
    for word, gap, length in told:
        words.append(SaidWord(word, at + gap, at + gap + length, 0.5))
        at += gap + length
    lines = lines_of(words)
    assert " ".join(line.text for line in lines).split() == [word.word.strip() for word in words]
    assert all(one.end_ms <= other.start_ms for one, other in zip(lines, lines[1:], strict=False))


def test_words_of_the_trade_come_first() -> None:
    """A term with a word that everybody uses waits; none is told twice, and no more than a model takes."""
    everyday = {"blow", "fly", "press"}
    told = hot_words(["blow", "lemel", "fly press"], ["limmel", "Lemel"], everyday=everyday)
    assert told == "We said lemel and limmel. We said blow and fly press."
    many = hot_words([f"word{letter}{other}" for letter in "abcdefghij" for other in "abcdefghijklm"])
    assert 0.8 * MOST_LETTERS < len(many) <= MOST_LETTERS
    assert hot_words([]) == ""
