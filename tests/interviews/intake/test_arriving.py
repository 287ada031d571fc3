"""Bytes on their way in: pieces in order, sent twice, of another file, after a break."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive.errors import Conflict, NotFound, Unacceptable
from archive.interviews.intake import arriving, queries
from archive.interviews.intake.inbox import Still, strangers, waiting
from archive.store.session import Store

CONTENT = bytes(range(256)) * 40


def begun(store: Store, size: int = len(CONTENT), interview: str = "I-1") -> str:
    """The key of an upload that has begun."""
    return arriving.begin(store, interview=interview, name="a.wav", size=size, who="keeper").key


def lies(store: Store, key: str) -> bytes:
    """What has come of it."""
    with store.session() as session:
        return arriving.place_of(store.settings, queries.upload(session, key)).read_bytes()


@pytest.mark.parametrize(
    ("interview", "size", "why"),
    [("I-9", 10, "no interview 'I-9'"), ("../x\0", 10, "no interview"), ("I-1", 0, "empty"), ("I-1", 1 << 60, "room")],
)
def test_what_cannot_come_is_refused_before_a_byte_is_sent(home: Store, interview: str, size: int, why: str) -> None:
    """An unknown interview, an empty file, and one that is larger than the disk."""
    with pytest.raises(Unacceptable, match=why):
        begun(home, size, interview)
    assert not list(home.settings.incoming.glob("*"))


def test_pieces_that_do_not_fit_are_refused(home: Store) -> None:
    """One that leaves a gap, one beyond the end, one of another file, one for nothing that is known."""
    key = begun(home)
    arriving.take_piece(home, key, 0, CONTENT[:5000], "keeper")
    with pytest.raises(Conflict, match="The next byte is 5000"):
        arriving.take_piece(home, key, 5001, b"x", "keeper")
    with pytest.raises(Unacceptable, match="more of it"):
        arriving.take_piece(home, key, 5000, CONTENT, "keeper")
    with pytest.raises(Conflict, match="not those that came before"):
        arriving.take_piece(home, key, 4000, b"another file", "keeper")
    with pytest.raises(NotFound):
        arriving.take_piece(home, "nothing", 0, b"x", "keeper")
    assert lies(home, key) == CONTENT[:5000]


def test_a_file_goes_on_after_any_break(home: Store) -> None:
    """A piece sent twice does no harm, and what was written but not noted is written over."""
    key = begun(home)
    arriving.take_piece(home, key, 0, CONTENT[:4000], "keeper")
    arriving.take_piece(home, key, 0, CONTENT[:4000], "keeper")
    with (home.settings.incoming / key).open("ab") as file:
        file.write(b"half a piece of a process that was killed")
    row = arriving.take_piece(home, key, 3000, CONTENT[3000:9000], "keeper")
    assert (row.received, row.state) == (9000, "arriving")
    row = arriving.take_piece(home, key, 9000, CONTENT[9000:], "keeper")
    assert (row.received, row.state) == (len(CONTENT), "arrived")
    assert lies(home, key) == CONTENT
    with pytest.raises(Conflict, match="is arrived"):
        arriving.take_piece(home, key, 0, CONTENT[:10], "keeper")


def test_a_dropped_file_leaves_nothing(home: Store) -> None:
    """Its bytes are deleted, and it cannot go on."""
    key = begun(home)
    arriving.take_piece(home, key, 0, CONTENT[:4000], "keeper")
    arriving.drop(home, key, "keeper")
    assert not (home.settings.incoming / key).exists()
    with pytest.raises(Conflict, match="is dropped"):
        arriving.take_piece(home, key, 4000, CONTENT[4000:], "keeper")


def test_the_inbox_tells_what_does_not_belong_in_it(tmp_path: Path) -> None:
    """A loose file, a folder of no interview, a folder in a folder, a link; what systems lay down is passed over."""
    (tmp_path / "I-1" / "inner").mkdir(parents=True)
    (tmp_path / "Tapes").mkdir()
    for name in ("loose.wav", "Tapes/b.wav", "I-1/.DS_Store", "I-1/c.wav.part", "I-1/a.wav"):
        (tmp_path / name).write_bytes(b"x")
    (tmp_path / "I-1" / "link.wav").symlink_to("/etc/hostname")
    assert [each.path.name for each in waiting(tmp_path, ["I-1"])] == ["a.wav"]
    places = {each.place for each in strangers(tmp_path, ["I-1"])}
    assert places == {"loose.wav", "Tapes/", "I-1/inner", "I-1/link.wav"}
    assert waiting(tmp_path / "none", ["I-1"]) == strangers(tmp_path / "none", ["I-1"]) == []


def test_a_file_is_taken_when_it_has_stood_still(tmp_path: Path) -> None:
    """Not at first sight, not while it grows, not while it is empty."""
    (tmp_path / "I-1").mkdir()
    place, still = tmp_path / "I-1" / "a.wav", Still()
    place.write_bytes(b"")
    assert still.of(waiting(tmp_path, ["I-1"])) == still.of(waiting(tmp_path, ["I-1"])) == []
    place.write_bytes(b"one")
    assert still.of(waiting(tmp_path, ["I-1"])) == []
    place.write_bytes(b"one and two")
    assert still.of(waiting(tmp_path, ["I-1"])) == []
    assert [each.path for each in still.of(waiting(tmp_path, ["I-1"]))] == [place]
