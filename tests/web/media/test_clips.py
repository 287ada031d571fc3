"""A clip's own sound and captions as a browser gets them."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Callable

import av
import numpy as np
import pytest
import soundfile
from flask.testing import FlaskClient
from sqlalchemy import delete, func, select, update

from archive.interviews.model import CutClip, Recording
from archive.interviews.renditions import make_missing
from archive.rights.model import Closure, Permission
from archive.store.session import Store
from archive.values.timecode import Span
from tests.conftest import SignIn, app_of

Visit = Callable[[str], FlaskClient]
ADDRESSES = (
    "/media/clips/{}.webm",
    "/media/clips/{}.mp3",
    "/media/clips/{}.m4a",
    "/media/clips/{}.vtt",
)
SOUND = "/media/clips/C-OPEN.webm"
MEDIA_TYPES = {"webm": "audio/webm", "mp3": "audio/mpeg", "m4a": "audio/mp4", "wav": "audio/wav"}


@pytest.mark.parametrize("role", ["visitor", "reader", "guide", "keeper"])
@pytest.mark.parametrize("address", ADDRESSES)
def test_absent_and_closed_are_told_alike(visit: Visit, role: str, address: str) -> None:
    """A clip that is embargoed, withdrawn, across a closure or never made: one status, page and set of headers."""
    client = visit(role)
    answers = [client.get(address.format(ref)) for ref in ("C-LATER", "C-GONE", "C-ACROSS", "C-NEVER")]
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.data for answer in answers}) == 1
    assert len({tuple(sorted(answer.headers.to_wsgi_list())) for answer in answers}) == 1


@pytest.mark.parametrize(("role", "purpose", "status"), [
    ("visitor", "kiosk", 200), ("visitor", "web", 404), ("visitor", "research", 403), ("visitor", "nonsense", 400),
    ("reader", "research", 200), ("reader", "tour", 403), ("guide", "tour", 200), ("keeper", "publication", 404),
])  # fmt: skip
@pytest.mark.parametrize("address", ADDRESSES)
def test_rights_follow_the_purpose_asked_for(visit: Visit, role: str, purpose: str, status: int, address: str) -> None:
    """`?for=` names the purpose; the role must be allowed to ask it, and the narrator to have allowed it."""
    assert visit(role).get(address.format("C-OPEN"), query_string={"for": purpose}).status_code == status


@pytest.mark.parametrize("ref", ["C-OPEN", "C-LATER", "C-NEVER"])
@pytest.mark.parametrize("role", ["visitor", "reader", "guide"])
def test_a_wav_is_for_a_keeper(visit: Visit, role: str, ref: str) -> None:
    """Everybody else is refused before it is asked whether there is such a clip."""
    assert visit(role).get(f"/media/clips/{ref}.wav").status_code == 403


@pytest.mark.parametrize("name", ["C-OPEN.flac", "C-OPEN", "C-OPEN.loudness", "I-OPEN.a.webm", "..%2fC-OPEN.webm"])
def test_no_other_form_is_given(visit: Visit, name: str) -> None:
    """Forms that are none, and recordings, have no address here."""
    assert visit("keeper").get(f"/media/clips/{name}").status_code == 404


def test_a_visitor_may_not_ask_for_the_level_of_a_tour(visit: Visit) -> None:
    """Tours are for guides, and so is what can be heard of their level."""
    assert visit("visitor").get(f"{SOUND}?tour=t-any").status_code == 403
    assert visit("guide").get(f"{SOUND}?tour=t-none").status_code == 404


def test_a_withdrawal_and_a_closure_bite_at_once(own_voices: Store) -> None:
    """A browser that holds a copy and asks whether it still holds gets 404, not 304, and no part of it."""
    client = app_of(own_voices).test_client()
    etag = client.get(SOUND).headers["ETag"]
    asks = ({}, {"If-None-Match": etag}, {"Range": "bytes=0-99", "If-Range": etag})
    assert client.get(SOUND, headers={"If-None-Match": etag}).status_code == 304
    with own_voices.changing("tests") as session:
        recording = session.scalars(select(Recording).where(Recording.ref == "I-OPEN.a")).one()
        recording.closures.append(Closure(Span(3000, 3200), (), recording.duration_ms))
    assert {client.get(SOUND, headers=headers).status_code for headers in asks} == {404}
    with own_voices.changing("tests") as session:
        session.execute(delete(Closure))
        session.execute(update(Permission).values(withdrawn_on=dt.date(2026, 11, 25)))
    assert {client.get(SOUND, headers=headers).status_code for headers in asks} == {404}


def test_after_a_closure_elsewhere_it_is_cut_anew(own_voices: Store) -> None:
    """What was kept before a closure is not asked for again, and goes with the stale copies; the clip is heard on."""
    client = app_of(own_voices).test_client()
    before = client.get(SOUND)
    with own_voices.changing("tests") as session:
        recording = session.scalars(select(Recording).where(Recording.ref == "I-OPEN.a")).one()
        recording.closures.append(Closure(Span(200, 400), (), recording.duration_ms))
    after = client.get(SOUND)
    assert (after.status_code, after.data) == (200, before.data)
    with own_voices.session() as session:
        count = select(func.count()).select_from(CutClip).where(CutClip.form == "webm")
        assert session.scalar(count) == 2
        make_missing(own_voices, processes=1)
    with own_voices.session() as session:
        assert session.scalar(count) == 1
    assert client.get(SOUND).data == before.data


@pytest.mark.parametrize("form", MEDIA_TYPES)
def test_nothing_beyond_the_clip_is_in_it(visit: Visit, form: str) -> None:
    """A second and a quarter, in every form, with a type, a name and a checksum of its own."""
    answer = visit("keeper").get(f"/media/clips/C-OPEN.{form}")
    assert answer.mimetype == MEDIA_TYPES[form]
    assert answer.headers["Content-Disposition"] == f"inline; filename=C-OPEN.{form}"
    assert {"private", "no-cache", "must-revalidate"} == set(answer.headers["Cache-Control"].split(", "))
    assert "Last-Modified" not in answer.headers
    with av.open(io.BytesIO(answer.data)) as container:
        stream = container.streams.audio[0]
        heard = sum(frame.samples for frame in container.decode(audio=0)) / stream.rate
    assert 1.24 < heard < 1.36


def test_a_wav_is_exact(visit: Visit, voices: Store) -> None:
    """To a keeper a clip of a WAV master is its very samples between the fades."""
    with voices.session() as session:
        master = session.scalars(select(Recording.master_sha256).where(Recording.ref == "I-SHUT.a")).one()
    whole, _ = soundfile.read(voices.files.path(master), dtype="int16")
    clip, rate = soundfile.read(io.BytesIO(visit("keeper").get("/media/clips/C-SHUT.wav").data), dtype="int16")
    assert (rate, len(clip)) == (48_000, 60_000)
    assert np.array_equal(clip[480:-480], whole[120_000:180_000][480:-480])


def test_whole_in_ranges_and_by_its_head(visit: Visit) -> None:
    """Ranges and HEAD are those of every sound: parts of the same bytes, and none past the end."""
    client = visit("visitor")
    whole, head = client.get(SOUND), client.head(SOUND)
    size, etag = len(whole.data), whole.headers["ETag"]
    part = client.get(SOUND, headers={"Range": "bytes=100-299", "If-Range": etag})
    assert (part.status_code, part.data) == (206, whole.data[100:300])
    assert part.headers["Content-Range"] == f"bytes 100-299/{size}"
    assert client.get(SOUND, headers={"Range": "bytes=0-9", "If-Range": '"another"'}).data == whole.data
    assert client.get(SOUND, headers={"Range": f"bytes={size}-"}).status_code == 416
    assert (head.status_code, head.data) == (200, b"")
    for name in ("Content-Length", "Content-Type", "ETag", "Accept-Ranges", "Cache-Control"):
        assert head.headers[name] == whole.headers[name]
    assert client.head("/media/clips/C-LATER.webm").status_code == 404
    assert client.get(SOUND).data == whole.data


def test_captions_are_in_step_with_the_clips_own_sound(visit: Visit) -> None:
    """Their time begins with the clip's; words at its edges end with it; names are those that the purpose allows."""
    research, kiosk = (visit("reader").get(f"/media/clips/C-OPEN.vtt?for={each}") for each in ("research", "kiosk"))
    assert "00:00:00.000 --> 00:00:00.500" in research.text
    assert "00:00:00.500 --> 00:00:01.250" in research.text
    assert [f"Line {number} of" in research.text for number in range(4)] == [False, False, True, True]
    assert "Nella Farrant" in research.text
    assert "Nella" not in kiosk.text
    assert research.mimetype == "text/vtt"
    assert research.headers["ETag"] != kiosk.headers["ETag"]


def test_a_tour_has_one_level_for_all_its_voices(as_role: SignIn) -> None:
    """Asked for a tour the clip is levelled with the others of it; a tone reaches -23 by itself."""
    guide = as_role("guide")
    alone, toured = (guide.get(f"/media/clips/C-1.mp3?for=tour{more}") for more in ("", "&tour=t-short"))
    assert (alone.status_code, toured.status_code) == (200, 200)
    assert alone.data == toured.data
