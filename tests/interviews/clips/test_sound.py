"""What a clip's sound is made from, and how loud it is made."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.loudness import Loudness
from archive.errors import OutOfRange
from archive.interviews.clips.sound import ALONE_LUFS, Recipe, Stretch, gain_of, level_of, recipe
from archive.interviews.model import Clip, Recording
from archive.rights.model import Closure
from archive.values.timecode import Span

STRETCH = Stretch("a" * 64, Span(1000, 4000), (Span(6000, 7000),))
MADE = Recipe(STRETCH, "webm", -23.0)
LOUDNESS = st.builds(
    lambda lufs, peak: Loudness(lufs, None, peak, None, None),
    st.one_of(st.none(), st.floats(-69, -1)),
    st.one_of(st.none(), st.floats(-60, 1)),
)


def clip() -> Clip:
    """A clip of a recording with one closure."""
    recording = Recording(master_sha256="a" * 64, closures=[Closure(Span(6000, 7000), (), 60_000)])
    return Clip(recording=recording, start_ms=1000, end_ms=4000)


@pytest.mark.parametrize("form", ["flac", "waveform", "loudness", ""])
def test_a_form_that_is_none_is_refused(form: str) -> None:
    """The forms that there are are told."""
    with pytest.raises(OutOfRange, match="webm, mp3, m4a, wav"):
        recipe(clip(), form, -23)


@pytest.mark.parametrize(
    "other",
    [
        replace(STRETCH, master_sha256="b" * 64),
        replace(STRETCH, span=Span(1000, 4001)),
        replace(STRETCH, masked=()),
        replace(STRETCH, masked=(Span(6000, 7001),)),
        replace(STRETCH, masked=(Span(6000, 7000), Span(9000, 9001))),
    ],
)
def test_another_stretch_has_another_mark(other: Stretch) -> None:
    """Master, span and every closure of the recording have a say in what is kept for a clip."""
    assert other.mark != STRETCH.mark
    assert not Recipe(other, "webm", -23.0).made_from.startswith(STRETCH.mark)


@pytest.mark.parametrize("other", [replace(MADE, form="mp3"), replace(MADE, level=-23.5), replace(MADE, level=None)])
def test_another_form_or_level_is_another_cut_of_the_same_stretch(other: Recipe) -> None:
    """The first half of the fingerprint is the stretch's alone, so that what is stale is known at any level."""
    assert other.made_from != MADE.made_from
    assert other.made_from.startswith(STRETCH.mark)
    assert len(other.made_from) == 64


def test_the_mask_is_the_guarded_one() -> None:
    """What is masked in a clip is the closure with its guard."""
    (masked,) = recipe(clip(), "webm", -23).stretch.masked
    assert masked.start_ms < 6000
    assert masked.end_ms > 7000


def test_a_wav_keeps_the_masters_level() -> None:
    """A sound editor levels for himself, whatever the tour."""
    made = recipe(clip(), "wav", -26)
    assert made.level is None
    assert gain_of(made, Loudness(-40, None, -20, None, None)) == 0


@given(clips=st.lists(LOUDNESS, max_size=6))
def test_all_clips_of_a_tour_reach_its_level(clips: list[Loudness]) -> None:
    """Between 6 units below -23 and -23; above that floor no clip is kept from it by its peak, and none goes over."""
    level = level_of(clips)
    assert ALONE_LUFS - 6 <= level <= ALONE_LUFS
    for one in clips:
        gain = gain_of(replace(MADE, level=level), one)
        if one.true_peak is not None and one.integrated is not None:
            assert one.true_peak + gain <= -1 + 1e-9
        if level > ALONE_LUFS - 6 and one.integrated is not None:
            assert one.integrated + gain == pytest.approx(level)


def test_one_knock_does_not_hush_a_whole_tour() -> None:
    """A clip that could not even reach 6 units under the level stays softer by itself."""
    knocked = Loudness(-45, None, -1, None, None)
    assert level_of([Loudness(-20, None, -8, None, None), knocked]) == ALONE_LUFS - 6
    assert gain_of(MADE, knocked) == 0
