"""Height and absorption of rooms in plan/plan.toml."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive.errors import Unacceptable
from archive.exchange.folder import read_folder
from archive.exchange.loading import load
from archive.exchange.writing import write_folder
from archive.plan.queries import rooms
from archive.store.session import Store
from tests.small_collection import swap, write_small_collection

PLAN = "plan/plan.toml"


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("absorption = 1.5", "It may be from 0.005 to 1"),
        ("absorption = 0", "It may be from 0.005 to 1"),
        ("height_m = 0.2", "It may be from 1 to 50"),
        ('height_m = "tall"', "'height_m'"),
    ],
)
def test_a_room_that_cannot_sound_so_is_refused(tmp_path: Path, line: str, told: str) -> None:
    """Beyond the bounds nothing is loaded, and the bounds are told."""
    folder = write_small_collection(tmp_path / "small", **{PLAN: swap("capacity = 12", f"capacity = 12\n{line}")})
    with pytest.raises(Unacceptable, match=told):
        read_folder(folder)


def test_how_a_room_sounds_is_kept_and_written_again(empty_home: Store, tmp_path: Path) -> None:
    """Both keys come back from a home as they were given; a room without them has none in the file."""
    given = swap("capacity = 12", "capacity = 12\nheight_m = 3.6\nabsorption = 0.07")
    load(empty_home, write_small_collection(tmp_path / "small", **{PLAN: given}))
    with empty_home.session() as session:
        sounds = {room.ref: (room.height_m, room.absorption) for room in rooms(session)}
    assert sounds == {"hall": (None, None), "shop": (3.6, 0.07), "loft": (None, None)}
    write_folder(empty_home, tmp_path / "out")
    written = (tmp_path / "out" / PLAN).read_text("utf-8")
    assert written.count("height_m") == written.count("absorption") == 1
    assert "height_m = 3.6\nabsorption = 0.07" in written
