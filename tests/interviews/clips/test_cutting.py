"""Clips cut on demand and kept by content. The records are made here by hand."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import pyloudnorm
import pytest
import soundfile
from sqlalchemy import delete, func, select

from archive.audio.cutting import FADE_MS, cut
from archive.errors import NotFound, NotReady
from archive.interviews.clips import cutting, edits
from archive.interviews.clips.cutting import loudness_of, sound_of
from archive.interviews.clips.sound import level_of, recipe
from archive.interviews.model import Clip, CutClip, Interview, Recording
from archive.interviews.renditions import make_missing
from archive.rights.model import Closure
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.model import KeptFile
from archive.store.session import Store
from archive.values.timecode import Span
from tests.audio.test_same_sound import spoken
from tests.copied_homes import copied

RATE = 48_000
SPANS = {"C-SOFT": Span(503, 7707), "C-LOUD": Span(9001, 15_500)}


@pytest.fixture(scope="module")
def samples() -> np.ndarray:
    """Eight seconds of a soft voice and eight of a loud one."""
    return np.concatenate([spoken(8, 1) * 0.1, spoken(8, 2)])


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory, samples: np.ndarray) -> Iterator[Store]:
    """A home with one recording in 24 bits and two clips of it, made once."""
    folder = tmp_path_factory.mktemp("clips")
    made = make_home(Settings(folder / "home", testing=True))
    soundfile.write(folder / "master.wav", samples, RATE, "PCM_24")
    sha256, size = made.files.keep(folder / "master.wav")
    with made.changing("tests") as session:
        session.add(KeptFile(sha256=sha256, size=size, media_type="audio/wav"))
        session.flush()
        recording = Recording(
            ref="I-1.a",
            position=0,
            master_name="master.wav",
            master_sha256=sha256,
            duration_ms=16_000,
            codec="pcm_s24le",
            sample_rate=RATE,
            channels=1,
            clips=[Clip(ref=ref, title=ref, start_ms=span.start_ms, end_ms=span.end_ms) for ref, span in SPANS.items()],
        )
        session.add(Interview(ref="I-1", title="A morning", language="en-GB", recordings=[recording]))
    yield made
    made.close()


@pytest.fixture
def store(filled: Store, tmp_path: Path) -> Iterator[Store]:
    """The same for one test alone."""
    own = copied(filled, tmp_path / "home")
    yield own
    own.close()


def got(store: Store, ref: str, form: str, **level: float) -> Path:
    """The kept file with a clip's sound."""
    with store.session() as session:
        clip = session.scalars(select(Clip).where(Clip.ref == ref)).one()
        return store.files.path(sound_of(store, session, clip, form, **level))


def change(store: Store, what: Callable[[Recording], object]) -> None:
    """Change the recording."""
    with store.changing("tests") as session:
        what(session.scalars(select(Recording)).one())


def close(start_ms: int, end_ms: int) -> Callable[[Recording], None]:
    """Closes a stretch of it."""
    return lambda recording: recording.closures.append(Closure(Span(start_ms, end_ms), (), recording.duration_ms))


def rows(store: Store, form: str) -> list[CutClip]:
    """What is kept in a form."""
    with store.session() as session:
        return list(session.scalars(select(CutClip).where(CutClip.form == form).order_by(CutClip.id)))


def heard(path: Path, tmp_path: Path) -> np.ndarray:
    """A clip as it sounds."""
    cut(path, tmp_path / "heard.wav", Span(0, 60_000))
    return soundfile.read(tmp_path / "heard.wav")[0]


def loudness(wave: np.ndarray, rate: int) -> float:
    """As another program measures it."""
    return float(pyloudnorm.Meter(rate, filter_class="DeMan").integrated_loudness(wave))


def test_without_its_master_there_is_no_clip(store: Store) -> None:
    """The file that is missing is named, and nothing is written down."""
    change(store, lambda recording: store.files.remove(recording.master_sha256))
    with pytest.raises(NotFound, match="Restore it from a backup"):
        got(store, "C-SOFT", "webm")
    assert rows(store, "webm") == []


def test_a_copy_made_for_other_closures_is_never_given(store: Store, samples: np.ndarray) -> None:
    """With a closure inside it, a clip is cut anew and silent there; when it is lifted, the sound is as it was."""
    before = got(store, "C-LOUD", "wav")
    change(store, close(11_000, 12_000))
    masked, _ = soundfile.read(got(store, "C-LOUD", "wav"))
    first, last = (11_000 - 9_001) * 48, (12_000 - 9_001) * 48
    assert not masked[first:last].any()
    assert np.abs(masked[: first - 9_600]).max() > 0.1
    change(store, lambda recording: recording.closures.clear())
    assert got(store, "C-LOUD", "wav") == before
    assert len(rows(store, "wav")) == 2


def test_what_is_closed_while_it_is_cut_is_neither_given_nor_noted(store: Store) -> None:
    """A closure that comes between asking and answering wins."""
    with store.session() as session:
        clip = session.scalars(select(Clip).where(Clip.ref == "C-LOUD")).one()
        assert clip.recording.closures == []
        change(store, close(11_000, 12_000))
        with pytest.raises(NotReady, match="Ask for it again"):
            sound_of(store, session, clip, "wav")
    assert rows(store, "wav") == []


def test_stale_ones_go_with_their_bytes(store: Store) -> None:
    """After a closure, the next making of copies takes away what was cut before it; what holds now stays."""
    old = [got(store, ref, form) for ref in SPANS for form in ("webm", "wav")]
    change(store, close(11_000, 12_000))
    new = got(store, "C-LOUD", "wav")
    make_missing(store, processes=1)
    assert [path.exists() for path in old] == [False] * 4
    assert new.exists()
    assert [row.sha256 for row in rows(store, "wav")] == [new.name]
    assert [len(rows(store, form)) for form in ("webm", "loudness")] == [0, 0]
    with store.session() as session:
        kept = set(session.scalars(select(KeptFile.sha256)))
    assert kept.isdisjoint(path.name for path in old)
    assert new.name in kept


def test_what_was_cut_for_a_clip_that_went_goes_too(store: Store) -> None:
    """A clip that is deleted or moved leaves no sound behind, and the other clip's stays."""
    gone, moved = got(store, "C-SOFT", "wav"), got(store, "C-LOUD", "wav")
    with store.changing("tests") as session:
        session.execute(delete(Clip).where(Clip.ref == "C-SOFT"))
        assert edits.drop_stale(session) == [gone.name]
    with store.changing("tests") as session:
        session.scalars(select(Clip)).one().end_ms -= 1
        assert edits.drop_stale(session) == [moved.name]
    assert rows(store, "wav") == []


def test_lost_bytes_are_cut_again(store: Store) -> None:
    """A row without its file is no answer; there is still one row afterwards."""
    path = got(store, "C-SOFT", "mp3")
    content = path.read_bytes()
    store.files.remove(path.name)
    assert got(store, "C-SOFT", "mp3").read_bytes() == content
    assert len(rows(store, "mp3")) == 1


def test_asked_for_at_the_same_moment_there_is_one_row(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both cut, both get the same bytes, and the home notes them once."""
    at_once = threading.Barrier(2)
    real = cutting.cutting.cut

    def both(*given: object, **more: object) -> None:
        at_once.wait(30)
        real(*given, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(cutting.cutting, "cut", both)
    with ThreadPoolExecutor(2) as pool:
        one, other = pool.map(lambda _number: got(store, "C-SOFT", "wav"), range(2))
    assert one == other
    assert len(rows(store, "wav")) == 1


def test_asked_for_twice_it_is_cut_once(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second time the very same file is given, without the master."""
    first = got(store, "C-SOFT", "webm")
    monkeypatch.setattr(cutting.cutting, "cut", lambda *_given, **_more: pytest.fail("cut again"))
    assert got(store, "C-SOFT", "webm") == first


@pytest.mark.parametrize("ref", SPANS)
def test_a_wav_is_the_masters_own_samples(store: Store, samples: np.ndarray, ref: str) -> None:
    """From the very sample to the very sample, in 24 bits, and but for 10 ms of fade at each end untouched."""
    path, span = got(store, ref, "wav"), SPANS[ref]
    with store.session() as session:
        master, _ = soundfile.read(
            store.files.path(session.scalars(select(Recording)).one().master_sha256), dtype="int32"
        )
    assert b"I-1.a, 0:" in path.read_bytes()[:1000]
    clip, rate = soundfile.read(path, dtype="int32")
    wanted, edge = master[span.start_ms * 48 : span.end_ms * 48], FADE_MS * 48
    assert (rate, soundfile.info(path).subtype, len(clip)) == (RATE, "PCM_24", len(wanted))
    assert np.array_equal(clip[edge:-edge], wanted[edge:-edge])
    assert (np.abs(clip[:edge]) <= np.abs(wanted[:edge])).all()
    assert (np.abs(clip[-edge:]) <= np.abs(wanted[-edge:])).all()
    assert max(abs(int(clip[0])), abs(int(clip[-1]))) < 2**31 / 500


@pytest.mark.parametrize("form", ["webm", "mp3", "m4a"])
def test_clips_are_brought_to_one_level(store: Store, tmp_path: Path, form: str) -> None:
    """Soft or loud, alone or at a tour's level, another program measures it within half a unit."""
    with store.session() as session:
        both = [loudness_of(store, session, clip) for clip in session.scalars(select(Clip).order_by(Clip.ref))]
    assert abs((both[0].integrated or 0) - (both[1].integrated or 0)) > 15
    for level in ({}, {"level": level_of(both) - 2.5}):
        for ref in SPANS:
            wave = heard(got(store, ref, form, **level), tmp_path)
            rate = soundfile.info(tmp_path / "heard.wav").samplerate
            assert loudness(wave, rate) == pytest.approx(level.get("level", -23.0), abs=0.5), (ref, level)


def test_the_level_is_measured_once(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """For the other forms and for the levels of tours it is read back as it was kept."""
    got(store, "C-SOFT", "webm")
    monkeypatch.setattr(cutting.cutting, "loudness_of", lambda *_given, **_more: pytest.fail("measured again"))
    got(store, "C-SOFT", "mp3", level=-25.0)
    assert len(rows(store, "loudness")) == 1


def test_no_change_is_written_into_the_history(store: Store) -> None:
    """What is cut is made again at any time; it is no deed of anybody's."""
    with store.session() as session:
        before = session.execute(select(func.count()).select_from(Interview.metadata.tables["change"])).scalar_one()
    got(store, "C-SOFT", "webm")
    with store.session() as session:
        clip = session.scalars(select(Clip).where(Clip.ref == "C-SOFT")).one()
        assert rows(store, "webm")[0].made_from == recipe(clip, "webm", -23.0).made_from
        changes = session.execute(select(func.count()).select_from(Interview.metadata.tables["change"])).scalar_one()
    assert changes == before
