"""All voices of a tour are equally loud, as far as every one of them can go."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
import soundfile
from sqlalchemy import select

from archive.audio.cutting import loudness_of
from archive.interviews.clips.cutting import sound_of
from archive.interviews.clips.sound import ALONE_LUFS
from archive.interviews.model import Clip
from archive.rights.decisions import Purpose, Role, Viewer
from archive.rights.model import Closure
from archive.store.session import Store
from archive.tours.given.levels import level_on_tour
from archive.values.timecode import Span
from tests.conftest import TODAY, fill
from tests.small_collection import RECORDING_SECONDS, append, swap, write_small_collection

GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)
SECOND_VOICE = """
[[tellings]]
ref = "tl-yella"
station = "st-bench"
kind = "clip"
title = "The yella"
minutes = 0.2
clip = "C-2"
themes = ["metal"]
depth = "glance"
audiences = ["families"]
language = "en-GB"
statements = []
"""


def soft_with_a_knock(rate: int = 16_000) -> bytes:
    """A sound whose first clip is soft and has one knock in it, and whose second is loud."""
    wave = 0.5 * np.sin(2 * np.pi * 220 * np.arange(RECORDING_SECONDS * rate) / rate)
    wave[: 8 * rate] *= 0.08
    wave[4 * rate : 4 * rate + 3] = 0.5
    buffer = io.BytesIO()
    soundfile.write(buffer, wave, rate, format="FLAC")
    return buffer.getvalue()


@pytest.fixture
def toured(empty_home: Store, tmp_path: Path) -> Store:
    """The small collection with two voices on its tour, of which the first cannot be raised far."""
    changes = {
        "interviews/I-1/audio.flac": soft_with_a_knock(),
        "tellings.toml": append(SECOND_VOICE),
        "tours/t-short.toml": swap('["tl-badge"]', '["tl-badge", "tl-yella"]'),
    }
    return fill(empty_home, write_small_collection(tmp_path / "small", **changes))


def measured(store: Store, ref: str, level: float) -> float:
    """How loud a clip comes out."""
    with store.session() as session:
        clip = session.scalars(select(Clip).where(Clip.ref == ref)).one()
        heard = loudness_of(store.files.path(sound_of(store, session, clip, "webm", level)), Span(0, 60_000))
    assert heard.integrated is not None
    return heard.integrated


def test_voices_of_a_tour_meet_where_all_can_be(toured: Store) -> None:
    """The loud one comes down to the soft one on the tour, and stands at -23 by itself; a closed one has no say."""
    with toured.session() as session:
        level = level_on_tour(toured, session, GUIDE, "t-short")
    assert ALONE_LUFS - 6 < level < ALONE_LUFS - 1
    for ref in ("C-1", "C-2"):
        assert measured(toured, ref, level) == pytest.approx(level, abs=0.5)
    assert measured(toured, "C-2", ALONE_LUFS) == pytest.approx(-23, abs=0.5)
    with toured.changing("tests") as session:
        recording = session.scalars(select(Clip).where(Clip.ref == "C-1")).one().recording
        recording.closures.append(Closure(Span(2000, 2500), (), recording.duration_ms))
    with toured.session() as session:
        assert level_on_tour(toured, session, GUIDE, "t-short") == ALONE_LUFS
