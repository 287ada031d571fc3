"""What lies only in the guard of a closure is given by no face: not as words, not as sound, not carried on a tour."""

from __future__ import annotations

import html
import io
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import av
import numpy as np
import pytest
import soundfile
from flask.testing import FlaskClient
from sqlalchemy import delete

from archive.interviews.renditions import make_missing
from archive.rights.model import Closure
from archive.settings import Settings
from archive.store.homes import make_home
from archive.store.session import Store
from tests.conftest import app_of, fill, sign_in, with_accounts
from tests.small_collection import RECORDING_SECONDS, append, swap, write_small_collection

RATE = 16_000
# The closure runs from 8.06 s to 11.95 s, so these lie in its guard and in nothing else. Asked for is the one word of
# a line, looked for the other: a page says again what it was asked.
GUARDS_S = ((8.0, 8.06), (11.95, 12.0))
ASKED, SAID = "marmalade", "zanzibar"
SECRET_HZ = 3_000

_LINES = f"""00:08.000 --> 00:08.050
<v P-1>{ASKED.title()} {SAID} at eight pence.

00:08.060 --> 00:11.950
<v P-1>He had the quatrefoil cough, poor man.

00:11.960 --> 00:12.000
<v P-1>And {SAID} {ASKED} again.
"""
_CLIPS = (
    f"C-8,I-1,I-1-a,0:08,0:08.05,The {SAID} clip,Of {SAID},{SAID} advice,st-press,SM.1,pr-cut,hz-fingers\n"
    f"C-9,I-1,I-1-a,0:06,0:08.01,Up to {SAID},Of {SAID},{SAID} advice,st-press,SM.1,pr-cut,hz-fingers\n"
)
_TELLING = f"""
[[tellings]]
ref = "tl-guarded"
station = "st-press"
kind = "clip"
title = "Hear of {SAID}"
minutes = 0.5
clip = "C-8"
themes = ["town"]
depth = "glance"
audiences = ["families"]
language = "en-GB"
statements = ["s-tools"]
"""

FACES = {
    "visitor": (
        *("/kiosk/interviews/I-1", "/kiosk/stations/st-press", "/kiosk/objects/SM.1", "/kiosk/processes/pr-cut"),
        *("/api/v1/interviews/I-1", "/api/v1/recordings/I-1-a/segments", f"/api/v1/search?q={ASKED}"),
        "/media/captions/I-1-a.vtt",
    ),
    "reader": (
        *("/reading/interviews/I-1", f"/reading/?q={ASKED}", "/reading/figures/", "/reading/recordings/I-1-a.txt"),
        *("/reading/recordings/I-1-a.vtt", f"/api/v1/search?q={ASKED}&purpose=research", "/media/captions/I-1-a.vtt"),
    ),
    "guide": (
        *("/desk/tours/t-short", "/desk/tours/t-short/give", "/desk/tours/t-short/sheet"),
        *("/desk/tours/t-short/pack.json", "/desk/tours/t-short/pack.zip", f"/api/v1/search?q={ASKED}&purpose=tour"),
    ),
}
CLIPS = [f"/media/clips/{clip}.{form}" for clip in ("C-8", "C-9") for form in ("webm", "mp3", "m4a", "vtt")]


@pytest.fixture
def guarded(tmp_path: Path) -> Iterator[Store]:
    """A home where words, clips and a tone lie in the guard of a closure, and nowhere else."""
    changes: dict[str, Any] = {
        "interviews/I-1/transcript.vtt": _in_the_guard,
        "interviews/I-1/audio.flac": _sound("FLAC"),
        "interviews/I-1/audio.mp3": _sound("MP3"),
        "clips.csv": append(_CLIPS),
        "tellings.toml": append(_TELLING),
        "tours/t-short.toml": swap('"tl-voice"', '"tl-voice", "tl-guarded"'),
    }
    store = make_home(Settings(tmp_path / "home", testing=True))
    yield with_accounts(fill(store, write_small_collection(tmp_path / "small", **changes)))
    store.close()


def test_what_lies_in_the_guard_is_given_by_no_face_until_the_closure_is_lifted(guarded: Store) -> None:
    """Reading, kiosk, search, captions, tour, pack, clips, sound and levels hold none of it; lifted, they hold it."""
    browsers = {role: _browser(guarded, role) for role in FACES}
    visitor = browsers["visitor"]
    assert list(_told(browsers)) == []
    assert {browser.get(address).status_code for browser in browsers.values() for address in CLIPS} == {404}
    for form in ("webm", "mp3"):
        assert max(_secrets(visitor, form)) < -80, form
    peaks = visitor.get("/media/waveforms/I-1-a.json").get_json()["peaks"]
    assert max(peaks[80:120]) == 0 < min(peaks[79], peaks[120])

    with guarded.changing("tests") as session:
        session.execute(delete(Closure))
    make_missing(guarded)
    assert {"/media/captions/I-1-a.vtt", "/reading/interviews/I-1", "/desk/tours/t-short/pack.zip"} <= {
        *_told(browsers)
    }
    assert {visitor.get(address).status_code for address in CLIPS} == {200}
    assert min(_secrets(visitor, "webm")) > -20


def _told(browsers: dict[str, FlaskClient]) -> Iterator[str]:
    """The addresses of the faces that tell what lies in the guard."""
    for role, browser in browsers.items():
        for address in FACES[role]:
            answer = browser.get(address)
            assert answer.status_code == 200, address
            if SAID in html.unescape(_text(answer.get_data())).casefold():
                yield address


def _text(body: bytes) -> str:
    if not body.startswith(b"PK"):
        return body.decode("utf-8")
    with zipfile.ZipFile(io.BytesIO(body)) as packed:
        return "\n".join(packed.read(name).decode("latin-1") for name in packed.namelist())


def _browser(store: Store, role: str) -> FlaskClient:
    client = app_of(store).test_client()
    return client if role == "visitor" else sign_in(client, role)


def _in_the_guard(text: str) -> str:
    before, rest = text.split("3\n00:08.000", 1)
    return before + _LINES + rest.split("poor man.\n", 1)[1]


def _sound(form: str) -> bytes:
    times = np.arange(RECORDING_SECONDS * RATE) / RATE
    secret = np.zeros_like(times)
    for start, end in GUARDS_S:
        secret[round(start * RATE) : round(end * RATE)] = 1
    wave = 0.3 * np.sin(2 * np.pi * 220 * times) + 0.6 * secret * np.sin(2 * np.pi * SECRET_HZ * times)
    buffer = io.BytesIO()
    soundfile.write(buffer, wave, RATE, format=form)
    return buffer.getvalue()


def _heard(body: bytes) -> tuple[np.ndarray, int]:
    with av.open(io.BytesIO(body)) as container:
        rate = container.streams.audio[0].rate
        return np.concatenate([frame.to_ndarray().reshape(-1) for frame in container.decode(audio=0)]), rate


def _secrets(browser: FlaskClient, form: str) -> list[float]:
    """How loud the hidden tone is in either guard, as a browser decodes it."""
    samples, rate = _heard(browser.get(f"/media/recordings/I-1-a.{form}").get_data())
    return [_secret(samples, rate, start, end) for start, end in GUARDS_S]


def _secret(samples: np.ndarray, rate: int, start_s: float, end_s: float) -> float:
    """How loud the hidden tone is in a stretch, in dB of full scale."""
    inside = samples[round(start_s * rate) : round(end_s * rate)]
    times = np.arange(len(inside)) / rate
    window = np.hanning(len(inside))
    found = abs((inside * window * np.exp(-2j * np.pi * SECRET_HZ * times)).sum()) * 2 / window.sum()
    return 20 * float(np.log10(max(found, 1e-9)))
