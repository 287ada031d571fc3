"""The clips on the page of a recording, each with its sound for an editor."""

from __future__ import annotations

import io

import soundfile
from sqlalchemy import select

from archive.interviews.model import Clip
from archive.rights.model import Closure
from archive.store.session import Store
from archive.values.timecode import Span
from tests.conftest import app_of, sign_in


def test_an_open_clip_can_be_taken_as_wav_and_a_closed_one_is_only_named(home: Store) -> None:
    """The link leads to the very stretch; once part of it is closed, title and link are gone and the link is dead."""
    keeper = sign_in(app_of(home).test_client(), "keeper")
    page = keeper.get("/workroom/recordings/I-1-a").get_data(as_text=True)
    assert 'href="/media/clips/C-2.wav" download="C-2.wav"' in page
    assert "The yella" in page
    sound, rate = soundfile.read(io.BytesIO(keeper.get("/media/clips/C-2.wav").data))
    with home.changing("tests") as session:
        clip = session.scalars(select(Clip).where(Clip.ref == "C-2")).one()
        assert len(sound) == clip.span.length_ms * rate // 1000
        clip.recording.closures.append(Closure(Span(15_000, 16_000), (), clip.recording.duration_ms))
    page = keeper.get("/workroom/recordings/I-1-a").get_data(as_text=True)
    assert "C-2: closed, and not to be heard" in page
    assert "The yella" not in page
    assert keeper.get("/media/clips/C-2.wav").status_code == 404
