"""Anchors, what lies between them, and the pieces that text and sound are cut into."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.aligning.anchoring import anchors_of
from archive.audio.aligning.gaps import gaps_between, unheard_lines, untold_gaps, untold_spans
from archive.audio.aligning.language_model import write_language_model
from archive.audio.aligning.listening import Listening
from archive.audio.aligning.model import GivenLine, Heard
from archive.audio.aligning.spans import pieces_of
from archive.audio.aligning.text import Text, text_of
from archive.audio.aligning.windows import LONGEST_MS, windows_of
from archive.values.timecode import Span

WORD_MS = 300


def text(*lines: str) -> Text:
    """Lines without times."""
    return text_of([GivenLine(line) for line in lines], frozenset())


def heard(words: str, start_ms: int = 0) -> list[Heard]:
    """Words one after the other, 300 ms each."""
    each = words.split()
    return [Heard(word, start_ms + at * WORD_MS, start_ms + (at + 1) * WORD_MS) for at, word in enumerate(each)]


def sound(duration_ms: int, pauses: Sequence[Span] = ()) -> Listening:
    """A sound of even level with some pauses."""
    levels = np.full(duration_ms // 10, -20.0)
    for pause in pauses:
        levels[pause.start_ms // 10 : pause.end_ms // 10] = -70
    return Listening(Path("none"), duration_ms, tuple(pauses), levels)


def test_a_lone_word_is_no_anchor() -> None:
    """One word that both have is chance; two in a row are not."""
    assert not anchors_of(text("the tup falls now"), heard("a big tup there"), 2_000)
    assert sorted(anchors_of(text("the tup falls now"), heard("a tup falls there"), 2_000)) == [1, 2]


def test_a_short_match_far_from_its_place_is_no_anchor() -> None:
    """Two little words a minute away from where their neighbours stand were said of something else."""
    words = text("we cut the strip in the shop", "and then it was done there every day")
    far = [*heard("we cut the strip"), *heard("in the", 60_000), *heard("and then it was done there", 4_000)]
    found = anchors_of(words, sorted(far, key=lambda each: each.start_ms), 70_000)
    assert all(each.start_ms < 10_000 for each in found.values())


def test_a_given_time_keeps_words_on_its_side() -> None:
    """The same words said twice belong to the line that the typist's time says."""
    lines = [GivenLine("we were all there"), GivenLine("we were all there", 60_000)]
    said = heard("we were all there", 61_000)
    found = anchors_of(text_of(lines, frozenset()), said, 120_000)
    assert sorted(found) == [4, 5, 6, 7]


@given(st.lists(st.sampled_from(["tup", "die", "force", "strip", "brass"]), max_size=60), st.integers(0, 30))
def test_anchors_go_forward(words: list[str], left_out: int) -> None:
    """Anchors stand in the order of the text and of the sound, and say the same word."""
    row = text(*(" ".join(words[at : at + 7]) for at in range(0, len(words), 7)))
    said = heard(" ".join(words[:left_out] + words[left_out + 3 :]))
    found = anchors_of(row, said, 60_000)
    places = sorted(found)
    times = [found[at].start_ms for at in places]
    assert times == sorted(set(times))
    assert all(row.words[at] == found[at].word for at in places)


def test_speech_without_words_and_words_without_speech() -> None:
    """Ten seconds that no line tells are told; a line that no second is left for is told."""
    lines = text("we cut the strip and rolled it", "this was never said by anyone at all", "then it went to the muffle")
    said = [*heard("we cut the strip and rolled it"), *heard("then it went to the muffle", 2_300)]
    quiet = sound(20_000, [Span(4_200, 5_000)])
    anchors = anchors_of(lines, said, quiet.duration_ms)
    gaps = gaps_between(lines, anchors, quiet)
    assert unheard_lines(lines, gaps, WORD_MS) == [1]
    untold = untold_gaps(gaps, WORD_MS)
    assert untold_spans(untold, quiet) == [Span(5_000, 20_000)]


def test_pieces_leave_out_what_is_not_told() -> None:
    """A long stretch of other speech lies between two pieces; every word stands in one of them, in order."""
    lines = text("we cut the strip and rolled it", "then it went to the muffle")
    said = [*heard("we cut the strip and rolled it"), *heard("then it went to the muffle", 32_000)]
    quiet = sound(40_000)
    anchors = anchors_of(lines, said, quiet.duration_ms)
    untold = untold_gaps(gaps_between(lines, anchors, quiet), WORD_MS)
    pieces = pieces_of(lines, anchors, quiet, untold=untold, left_out=())
    assert [piece.words for piece in pieces] == [tuple(range(7)), tuple(range(7, 13))]
    assert pieces[0].end_ms < 5_000
    assert pieces[1].start_ms > 30_000


@given(st.lists(st.integers(1, 30), min_size=1, max_size=40), st.data())
def test_pieces_hold_every_word_once(lengths: list[int], data: st.DataObject) -> None:
    """Whatever was heard, no word is lost or doubled, and no piece reaches into the next."""
    words = [f"w{'x' * (at % 5)}y{'z' * (at % 7)}" for at in range(sum(lengths))]
    bounds = [sum(lengths[:at]) for at in range(len(lengths) + 1)]
    row = text(*(" ".join(words[a:b]) for a, b in zip(bounds, bounds[1:], strict=False)))
    said = [each for each in heard(" ".join(words)) if data.draw(st.booleans())]
    quiet = sound(len(words) * WORD_MS + 500)
    anchors = anchors_of(row, said, quiet.duration_ms)
    untold = untold_gaps(gaps_between(row, anchors, quiet), WORD_MS)
    pieces = pieces_of(row, anchors, quiet, untold=untold, left_out=())
    assert [word for piece in pieces for word in piece.words] == list(range(len(words)))
    assert all(a.end_ms <= b.start_ms for a, b in zip(pieces, pieces[1:], strict=False))


def test_windows_end_in_pauses() -> None:
    """A window ends in the longest pause in reach; silence is not listened to."""
    quiet = sound(70_000, [Span(15_000, 15_400), Span(20_000, 21_000), Span(40_000, 70_000)])
    found = windows_of(quiet)
    assert found[0] == Span(0, 20_500)
    assert found[-1].end_ms <= 70_000
    assert all(window.length_ms <= LONGEST_MS for window in found)
    assert not windows_of(sound(30_000, [Span(0, 30_000)]))


@pytest.mark.parametrize("words", [["a"], ["a", "a", "a"], ["a", "b", "a", "b"]])
def test_likelihoods_come_to_one(tmp_path: Path, words: list[str]) -> None:
    """After every word, the likelihoods of all that may follow come to one, unless no word is left to spare for."""
    write_language_model([words, ["c"]], tmp_path / "m")
    table: dict[tuple[str, ...], tuple[float, float]] = {}
    for row in (tmp_path / "m").read_text().splitlines():
        parts = row.split()
        if parts and parts[0].startswith("-") or parts and parts[0] == "0.0000":
            back = parts[-1] if parts[-1][-1].isdigit() and len(parts) > 2 else "0"
            table[tuple(p for p in parts[1:] if not p[-1].isdigit())] = (10 ** float(parts[0]), 10 ** float(back))
    follow = {gram[0] for gram in table if len(gram) == 1} - {"<s>"}
    for (before,) in [gram for gram in table if len(gram) == 1 and gram != ("</s>",)]:
        total = sum(
            table[before, word][0] if (before, word) in table else table[before,][1] * table[word,][0]
            for word in follow
        )
        told = all((before, word) in table for word in follow)
        assert total == pytest.approx(0.6 if told else 1, abs=0.02), before
