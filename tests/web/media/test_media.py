"""Sound, waveforms, captions and pictures as a browser gets them."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Callable

import av
import numpy as np
import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from archive.interviews.model import Recording, Rendition
from archive.rights.model import Closure, Permission
from archive.store.session import Store
from archive.values.timecode import Span
from tests.conftest import app_of

Visit = Callable[[str], FlaskClient]
ADDRESSES = (
    "/media/recordings/{}.webm",
    "/media/recordings/{}.mp3",
    "/media/waveforms/{}.json",
    "/media/captions/{}.vtt",
)
SOUND = "/media/recordings/I-OPEN.a.webm"
SHUT = "/media/recordings/I-SHUT.a.webm"


@pytest.mark.parametrize("role", ["visitor", "reader", "guide", "keeper"])
@pytest.mark.parametrize("address", ADDRESSES)
def test_absent_and_closed_are_told_alike(visit: Visit, role: str, address: str) -> None:
    """An embargoed, a withdrawn and a never-made recording give the same status, page and headers to everyone."""
    client = visit(role)
    answers = [client.get(address.format(ref)) for ref in ("I-LATER.a", "I-GONE.a", "I-NEVER.a")]
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.data for answer in answers}) == 1
    assert len({tuple(sorted(answer.headers.to_wsgi_list())) for answer in answers}) == 1


@pytest.mark.parametrize(("role", "purpose", "status"), [
    ("visitor", "kiosk", 200), ("visitor", "web", 404), ("visitor", "research", 403), ("visitor", "tour", 403),
    ("visitor", "nonsense", 400), ("reader", "research", 200), ("reader", "tour", 403), ("guide", "tour", 200),
    ("keeper", "publication", 404),
])  # fmt: skip
@pytest.mark.parametrize("address", ADDRESSES)
def test_rights_follow_the_purpose_asked_for(visit: Visit, role: str, purpose: str, status: int, address: str) -> None:
    """`?for=` names the purpose; the role must be allowed to ask it, and the narrator to have allowed it."""
    assert visit(role).get(address.format("I-OPEN.a"), query_string={"for": purpose}).status_code == status


@pytest.mark.parametrize("name", ["TY.1984.13.webp", "../lemel.sqlite", "..%2flemel.sqlite", "TY.1984.12", "%00.webp"])
def test_only_pictures_of_objects_are_given(visit: Visit, name: str) -> None:
    """A file name is looked up among the pictures and never in a folder."""
    assert visit("visitor").get(f"/media/pictures/{name}").status_code == 404


@pytest.mark.parametrize("name", ["I-OPEN.a.wav", "I-OPEN.a", "I-OPEN.a.webm.mp3", "I-OPEN.webm", ".webm"])
def test_no_other_form_is_given(visit: Visit, name: str) -> None:
    """Masters and made-up forms have no address."""
    assert visit("keeper").get(f"/media/recordings/{name}").status_code == 404


def test_a_withdrawal_bites_at_once(own_voices: Store) -> None:
    """A browser that holds a copy and asks whether it still holds gets 404, not 304."""
    client = app_of(own_voices).test_client()
    etag = client.get(SOUND).headers["ETag"]
    assert client.get(SOUND, headers={"If-None-Match": etag}).status_code == 304
    with own_voices.changing("tests") as session:
        session.execute(update(Permission).values(withdrawn_on=dt.date(2026, 11, 25)))
    for headers in ({}, {"If-None-Match": etag}, {"Range": "bytes=0-99", "If-Range": etag}):
        assert client.get(SOUND, headers=headers).status_code == 404


def test_a_closure_bites_at_once(own_voices: Store) -> None:
    """From the moment of a closure the old copy is not given, and nothing else until the masked one is made."""
    client = app_of(own_voices).test_client()
    etag = client.get(SOUND).headers["ETag"]
    with own_voices.changing("tests") as session:
        recording = session.scalars(select(Recording).where(Recording.ref == "I-OPEN.a")).one()
        recording.closures.append(Closure(Span(0, 500), (), recording.duration_ms))
    for address in (SOUND, "/media/waveforms/I-OPEN.a.json"):
        assert client.get(address, headers={"If-None-Match": etag}).status_code == 503


def test_what_is_heard_of_a_closed_recording_is_masked(visit: Visit, voices: Store) -> None:
    """The bytes of every form of a closed recording are silent in the closed second; no header speaks of the master."""
    with voices.session() as session:
        master = session.scalars(select(Recording.master_sha256).where(Recording.ref == "I-SHUT.a")).one()
    for form, rate in (("webm", 48_000), ("mp3", 24_000)):
        answer = visit("keeper").get(f"/media/recordings/I-SHUT.a.{form}")
        with av.open(io.BytesIO(answer.data)) as container:
            heard = np.concatenate([frame.to_ndarray().reshape(-1) for frame in container.decode(audio=0)])
        assert np.abs(heard[round(1.05 * rate) : round(1.95 * rate)]).max() < 1e-4
        assert np.abs(heard[: round(0.9 * rate)]).max() > 0.5
        assert master not in str(answer.headers)
    peaks = visit("keeper").get("/media/waveforms/I-SHUT.a.json").json["peaks"]
    assert [peak == 0 for peak in peaks] == [10 <= step < 20 for step in range(40)]


def test_whole_and_in_ranges(visit: Visit) -> None:
    """Ranges are those of RFC 9110: first part, last part, open end, beyond the end, and with a changed copy."""
    client = visit("visitor")
    whole = client.get(SOUND)
    size = len(whole.data)
    assert (whole.status_code, whole.headers["Accept-Ranges"], whole.headers["Content-Length"]) == (
        200,
        "bytes",
        str(size),
    )
    for asked, first, last in (
        ("0-99", 0, 99),
        ("100-", 100, size - 1),
        ("-50", size - 50, size - 1),
        ("7-999999999", 7, size - 1),
    ):
        part = client.get(SOUND, headers={"Range": f"bytes={asked}"})
        assert part.status_code == 206
        assert part.headers["Content-Range"] == f"bytes {first}-{last}/{size}"
        assert part.data == whole.data[first : last + 1]
    beyond = client.get(SOUND, headers={"Range": f"bytes={size}-"})
    assert (beyond.status_code, beyond.headers["Content-Range"]) == (416, f"bytes */{size}")
    same = client.get(SOUND, headers={"Range": "bytes=0-9", "If-Range": whole.headers["ETag"]})
    other = client.get(SOUND, headers={"Range": "bytes=0-9", "If-Range": '"another"'})
    assert (same.status_code, other.status_code, other.data) == (206, 200, whole.data)


def test_head_tells_the_same_without_the_bytes(visit: Visit) -> None:
    """HEAD has the headers of GET and no body; it asks for rights too."""
    client = visit("visitor")
    whole, head = client.get(SOUND), client.head(SOUND)
    assert (head.status_code, head.data) == (200, b"")
    for name in ("Content-Length", "Content-Type", "ETag", "Accept-Ranges", "Cache-Control"):
        assert head.headers[name] == whole.headers[name]
    assert client.head("/media/recordings/I-LATER.a.webm").status_code == 404


@pytest.mark.parametrize(("address", "media_type", "name"), [
    (SOUND, "audio/webm", "I-OPEN.a.webm"),
    ("/media/recordings/I-SHUT.a.mp3", "audio/mpeg", "I-SHUT.a.mp3"),
    ("/media/pictures/TY.1984.12.webp", "image/webp", "TY.1984.12.webp"),
])  # fmt: skip
def test_headers(visit: Visit, voices: Store, address: str, media_type: str, name: str) -> None:
    """A strong ETag that is the checksum of what is sent, caches that must ask again, and the reference as name."""
    answer = visit("visitor").get(address)
    assert answer.headers["Content-Type"] == media_type
    assert answer.headers["Content-Disposition"] == f"inline; filename={name}"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert {"private", "no-cache", "must-revalidate"} == set(answer.headers["Cache-Control"].split(", "))
    assert "Last-Modified" not in answer.headers
    etag, weak = answer.get_etag()
    assert not weak
    assert voices.files.path(etag).read_bytes() == answer.data


def test_the_same_address_for_another_purpose_has_its_own_answer(visit: Visit) -> None:
    """Captions show the name that each purpose allows, so their ETags differ; signed-in answers vary by cookie."""
    reader = visit("reader")
    research = reader.get("/media/captions/I-OPEN.a.vtt")
    kiosk = reader.get("/media/captions/I-OPEN.a.vtt?for=kiosk")
    assert "Nella Farrant" in research.text
    assert "Nella" not in kiosk.text
    assert "N. F." in kiosk.text
    assert research.headers["ETag"] != kiosk.headers["ETag"]
    assert "Cookie" in research.headers["Vary"]


def test_captions_leave_out_what_is_closed(visit: Visit) -> None:
    """Captions are WebVTT of the open segments alone, each at its time."""
    answer = visit("reader").get("/media/captions/I-SHUT.a.vtt")
    assert answer.headers["Content-Type"] == "text/vtt; charset=utf-8"
    assert answer.text.startswith("WEBVTT\n")
    assert [f"Line {n} of SHUT." in answer.text for n in range(4)] == [True, False, True, True]
    assert "00:00:02.000 --> 00:00:03.000" in answer.text


def test_a_supplied_file_goes_out_as_it_came(visit: Visit, voices: Store) -> None:
    """Without closures the file that came fit for browsers is sent byte for byte, and its MP3 is made beside it."""
    with voices.session() as session:
        supplied = session.scalars(select(Rendition.sha256).where(Rendition.kind == "supplied")).one()
    client = visit("visitor")
    assert client.get(SOUND).data == voices.files.path(supplied).read_bytes()
    assert client.get("/media/recordings/I-OPEN.a.mp3").status_code == 200
