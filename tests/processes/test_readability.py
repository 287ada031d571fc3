"""How easily a text reads, against published examples and a library."""

from __future__ import annotations

import pytest
import textstat
from hypothesis import given
from hypothesis import strategies as st

from archive.processes.depths import DEPTHS
from archive.processes.model import SECTIONS
from archive.processes.readability import Reading, reading_of, syllables
from archive.settings import shared_folder

PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


@pytest.mark.parametrize("text", ["", "  \n", "300 × 1.7", "…!?", "1.\n2.\n"])
def test_a_text_without_words_has_no_reading(text: str) -> None:
    """Figures and signs alone have neither words nor an ease, and divide by nothing."""
    assert reading_of(text) is None


@pytest.mark.parametrize(
    ("text", "counts", "ease", "grade"),
    [
        # reference.md, section I: 13 words, 24 syllables, grade 11.3 [found: wikisum], ease 37.5 [computed].
        (PLATYPUS, (13, 1, 24), "37.5", "11.3"),
        # reference.md, section I: 6 words, 6 syllables: 116.1 and -1.45 [computed; 116 from memory].
        ("The cat sat on the mat.", (6, 1, 6), "116.1", "-1.45"),
        # reference.md, section I: the greatest ease there can be [found: wikisum].
        ("This.", (1, 1, 1), "121.22", "-3.40"),
    ],
)
def test_published_examples(text: str, counts: tuple[int, int, int], ease: str, grade: str) -> None:
    """The printed figures come out, to half of their last digit."""
    reading = reading_of(text)
    assert reading == Reading(*counts)
    for figure, printed in ((reading.ease, ease), (reading.grade, grade)):
        assert abs(figure - float(printed)) <= 0.5 * 10 ** -len(printed.partition(".")[2]) + 1e-9


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("plate", 1), ("handle", 2), ("handles", 2), ("rolled", 1), ("handled", 2), ("heated", 2), ("presses", 2),
        ("plates", 1), ("radius", 3), ("station", 2), ("museum", 3), ("layer", 2), ("somebody", 3), ("quiet", 2),
        ("anyone", 3), ("people", 2), ("rhythm", 2), ("the", 1), ("Don’t", 1), ("pattern's", 2), ("mm", 1),
    ],
)  # fmt: skip
def test_syllables_by_rule_and_by_hand(word: str, count: int) -> None:
    """Silent letters are not counted, vowels spoken apart are, and what no rule knows is given by hand."""
    assert syllables(word) == count


def test_sentences_end_where_they_end() -> None:
    """A decimal point ends nothing; a list entry and a paragraph without a full stop do end."""
    assert reading_of("It falls 1.7 m. Then it rests.").sentences == 2
    assert reading_of("First\n\nSecond").sentences == 2
    assert reading_of("1. Heat it\n2. Cool it").sentences == 2


def test_the_demo_reads_as_the_library_says() -> None:
    """On every plain text of the demo's processes the ease is within five points of textstat, and a grade of one."""
    checked = 0
    for path in sorted((shared_folder("demo-collection") / "processes").glob("*.md")):
        for section in path.read_text("utf-8").split("\n## ")[1:]:
            heading, _, body = section.partition("\n")
            if heading not in {depth.heading for depth in DEPTHS[:2]}:
                continue
            reading = reading_of(body)
            assert abs(reading.ease - textstat.flesch_reading_ease(body)) < 5, path.name
            assert abs(reading.grade - textstat.flesch_kincaid_grade(body)) < 1, path.name
            checked += 1
    assert checked >= 40


@given(st.lists(st.sampled_from(["press", "metal", "annealing", "brass"]), min_size=1, max_size=30))
def test_shorter_sentences_read_more_easily(words: list[str]) -> None:
    """The same words in one sentence never read more easily than with a stop after each."""
    assert reading_of(" ".join(words)).ease <= reading_of(". ".join(words)).ease + 1e-9


def test_each_depth_is_a_section() -> None:
    """The depths are headings that a process must have."""
    assert {depth.heading for depth in DEPTHS} <= set(SECTIONS)
