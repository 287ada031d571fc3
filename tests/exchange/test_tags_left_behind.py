"""Words in the tags of a sound file reach no listener, not even while a load is still at work."""

from __future__ import annotations

from pathlib import Path

import av
import pytest

import archive.exchange.loading
from archive.exchange.loading import load
from archive.interviews.model import Recording
from archive.interviews.renditions import Report, servable
from archive.rights.model import Closure
from archive.store.session import Store
from tests.small_collection import write_small_collection

SAID = "Zebedee at the window"


def tagged(source: Path) -> bytes:
    """The same MP3 with a title in its tags."""
    target = source.with_name("tagged.mp3")
    with av.open(str(source)) as reading, av.open(str(target), "w", format="mp3") as writing:
        writing.metadata["title"] = SAID
        stream = writing.add_stream_from_template(reading.streams.audio[0])
        for packet in reading.demux(reading.streams.audio[0]):
            if packet.dts is not None:
                packet.stream = stream
                writing.mux(packet)
    content = target.read_bytes()
    target.unlink()
    return content


def test_a_supplied_copy_is_bare_before_its_record_stands(
    empty_home: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The load is stopped where records are stored and nothing else is made yet: what would be served tells nothing."""
    folder = write_small_collection(tmp_path / "small")
    copy = folder / "interviews" / "I-1" / "audio.mp3"
    copy.write_bytes(tagged(copy))
    assert SAID.encode() in copy.read_bytes()
    monkeypatch.setattr(archive.exchange.loading, "make_missing", lambda *_arguments: Report(0, ()))
    load(empty_home, folder)
    with empty_home.changing("tests") as session:
        session.query(Closure).delete()
    with empty_home.session() as session:
        recording = session.query(Recording).filter_by(ref="I-1-a").one()
        served = empty_home.files.path(servable(recording, "mp3").sha256).read_bytes()
    assert SAID.encode() not in served
    assert len(served) > 10_000
