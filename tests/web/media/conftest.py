"""A home made by hand for the media: four interviews of every standing, one picture, and browsers on it."""

from __future__ import annotations

import datetime as dt
import shutil
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile
from flask.testing import FlaskClient
from sqlalchemy.orm import Session

from archive.accounts.edits import add_account
from archive.interviews.model import Clip, Interview, Recording, Rendition, Segment
from archive.interviews.renditions import make_missing
from archive.objects.model import MuseumObject, Picture
from archive.people.model import Person
from archive.rights.model import Agreement, Closure, Permission
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.model import KeptFile
from archive.store.session import Store
from archive.values.timecode import Span
from tests.conftest import PASSWORD, app_of, sign_in

RATE, SECONDS = 48_000, 4
PICTURE = b"RIFF\x1a\x00\x00\x00WEBPVP8L" + bytes(14)
OPEN = {"research": "own", "kiosk": "own", "tour": "own"}


@pytest.fixture(scope="session")
def voices(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """I-OPEN (supplied WebM), I-SHUT (WAV, closed from 1 to 2 s), I-LATER (embargoed), I-GONE (withdrawn).

    Each has a clip C-OPEN and so on from 2.5 to 3.75 s; I-SHUT has one across its closure too.
    Made once, for tests that only read.
    """
    folder = tmp_path_factory.mktemp("voices")
    store = make_home(Settings(folder / "home", testing=True))
    with store.changing("tests") as session:
        for role in ("guide", "reader", "keeper"):
            add_account(session, name=role, role=role, password=PASSWORD)
        narrator = Person(ref="P-01", name="Nella Farrant", roles=["narrator"])
        session.add(narrator)
        for ref in ("OPEN", "SHUT", "LATER", "GONE"):
            _add(session, store, folder, ref, narrator)
        _picture(session, store)
    make_missing(store)
    yield store
    store.close()


@pytest.fixture(scope="session")
def visit(voices: Store) -> Callable[[str], FlaskClient]:
    """A browser by role: visit("reader"); each signs in once."""
    app = app_of(voices)
    return cache(lambda role: app.test_client() if role == "visitor" else sign_in(app.test_client(), role))


@pytest.fixture
def own_voices(voices: Store, tmp_path: Path) -> Iterator[Store]:
    """The same home, copied for a test that changes it."""
    shutil.copytree(voices.settings.home, tmp_path / "home")
    store = Store(Settings(tmp_path / "home", testing=True))
    yield store
    store.close()


def _add(session: Session, store: Store, folder: Path, ref: str, narrator: Person) -> None:
    path = folder / f"{ref}.{'webm' if ref == 'OPEN' else 'wav'}"
    samples = 0.9 * np.sin(2 * np.pi * (300 + sum(map(ord, ref))) * np.arange(SECONDS * RATE) / RATE)
    _write_webm(path, samples) if ref == "OPEN" else soundfile.write(path, samples, RATE)
    sha256, size = store.files.keep(path)
    session.add(KeptFile(sha256=sha256, size=size, media_type="audio/webm"))
    session.flush()
    recording = Recording(
        ref=f"I-{ref}.a",
        position=0,
        master_name=path.name,
        master_sha256=sha256,
        duration_ms=SECONDS * 1000,
        codec="opus",
        sample_rate=RATE,
        channels=1,
        segments=[
            Segment(position=n, start_ms=n * 1000, end_ms=n * 1000 + 1000, speaker=narrator, text=f"Line {n} of {ref}.")
            for n in range(SECONDS)
        ],
    )
    recording.clips = [Clip(ref=f"C-{ref}", start_ms=2500, end_ms=3750, title="A clip")]
    if ref == "SHUT":
        recording.clips.append(Clip(ref="C-ACROSS", start_ms=1500, end_ms=2500, title="A clip that is closed"))
    if ref == "OPEN":
        recording.renditions.append(Rendition(kind="supplied", form="webm", file_name="a.webm", sha256=sha256))
    if ref == "SHUT":
        recording.closures.append(Closure(Span(1060, 1950), (), 3000, reason="a workmate's illness"))
    agreement = Agreement(permissions=[_permission(purpose, form, ref) for purpose, form in OPEN.items()])
    session.add(
        Interview(
            ref=f"I-{ref}",
            title=ref,
            language="en-GB",
            narrators=[narrator],
            agreement=agreement,
            recordings=[recording],
        )
    )


def _permission(purpose: str, name_form: str, ref: str) -> Permission:
    return Permission(
        purpose=purpose,
        allowed=True,
        name_form="initials" if purpose == "kiosk" else name_form,
        from_date=dt.date(2031, 5, 3) if ref == "LATER" else None,
        withdrawn_on=dt.date(2024, 2, 1) if ref == "GONE" else None,
    )


def _picture(session: Session, store: Store) -> None:
    sha256, size = store.files.keep_bytes(PICTURE)
    session.add(KeptFile(sha256=sha256, size=size, media_type="image/webp"))
    session.flush()
    picture = Picture(position=0, file_name="TY.1984.12.webp", sha256=sha256, width=1, height=1, text="A drop stamp.")
    session.add(MuseumObject(ref="TY.1984.12", name="drop stamp", description="Falls.", pictures=[picture]))


def _write_webm(path: Path, samples: np.ndarray) -> None:
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libopus", rate=RATE)
        stream.layout = "mono"
        frame = av.AudioFrame.from_ndarray((samples * 32_000).astype(np.int16)[None, :], "s16", "mono")
        frame.sample_rate, frame.pts, frame.time_base = RATE, 0, Fraction(1, RATE)
        container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
