"""Chapters proposed by how words hold together, and the talk of each voice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.interviews.said.keywords import Rarity, root, roots
from archive.interviews.said.talk_time import talk_time
from archive.interviews.said.topics import chapters

_STAMP = [("tup", "rope", "die"), ("rope", "pulley", "tup"), ("die", "bed", "tup"), ("tup", "rope", "stirrup")] * 3
_VATS = [("vat", "silver", "wire"), ("wire", "rod", "vat"), ("silver", "acid", "vat"), ("vat", "wire", "rod")] * 3


def _proposed(lines: list[tuple[str, ...]], trade: frozenset[str] = frozenset()) -> list[tuple[int, int]]:
    return [(one.first, one.after) for one in chapters(lines, Rarity(lines), trade)]


def test_nothing_has_no_chapters() -> None:
    """No lines, no chapter."""
    assert _proposed([]) == []


def test_a_few_lines_are_one_chapter() -> None:
    """Too short a talk is not parted."""
    assert _proposed([*_STAMP[:4], *_VATS[:4]]) == [(0, 8)]


def test_a_change_of_matter_begins_a_chapter() -> None:
    """The border falls where the talk goes from the stamp to the vats, within a line of it."""
    first, second = _proposed([*_STAMP, *_VATS])
    assert abs(first[1] - len(_STAMP)) <= 1
    assert second == (first[1], len(_STAMP) + len(_VATS))


def test_key_phrases_tell_a_chapter_from_the_rest() -> None:
    """Words of the first are not those of the second, and the trade's own words come first."""
    lines = [*_STAMP, *_VATS]
    first, second = chapters(lines, Rarity(lines), frozenset({"rope"}))
    assert first.keys[0] == "rope"
    assert {"vat", "wire"} <= set(second.keys)
    assert not set(first.keys) & set(second.keys)


@given(st.lists(st.lists(st.sampled_from(["tup", "rope", "vat", "wire", "gold"]), max_size=4), max_size=60))
def test_chapters_cover_every_line_once(lines: list[list[str]]) -> None:
    """Whatever is said, the chapters lie end to end, and none is shorter than five lines unless all is."""
    proposed = [(one.first, one.after) for one in chapters(lines, Rarity(lines))]
    assert [place for first, after in proposed for place in range(first, after)] == list(range(len(lines)))
    assert len(proposed) <= 1 or all(after - first >= 5 for first, after in proposed)


@pytest.mark.parametrize("word", ["lifter", "lifters", "lifting", "lifted", "lift"])
def test_forms_of_a_word_have_one_root(word: str) -> None:
    """So that two narrators meet who speak of one thing."""
    assert root(word) == "lift"


def test_everyday_words_tell_nothing() -> None:
    """Numbers, units and little words are left out of what a line is about."""
    assert roots("And then there were forty of them a minute, you know, in the March.") == ()


def test_talk_is_counted_by_voice() -> None:
    """The longest first; where a voice's lines overlap, the time counts once."""
    turns = [("Ada", 0, 1000), ("Ned", 1000, 9000), ("Ada", 500, 2000), ("Ada", 8000, 8500)]
    assert talk_time(turns) == {"Ned": 8000, "Ada": 2500}
    assert talk_time([]) == {}
