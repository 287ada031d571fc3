"""The second step: rooms get a height and an absorption."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import inspect, text
from sqlalchemy.exc import IntegrityError

from archive.settings import Settings
from archive.store import migrating
from archive.store.homes import open_home
from archive.store.session import open_engine

_ROOM = (
    "insert into floor (id, ref, name, level, svg_name, svg, metres_per_unit) values (1, 'g', 'G', 0, 'g', '', 0.01)",
    "insert into room (id, ref, position, name, floor_id, element, outline, label_x, label_y, capacity, note)"
    " values (1, 'shop', 0, 'Shop', 1, 'r', '[]', 0, 0, 9, '')",
    "insert into station (id, ref, number, name, room_id, element, x, y, summary, seats, quiet)"
    " values (1, 'st', 1, 'Stamp', 1, 's', 0, 0, '', 0, 0)",
)


@pytest.fixture
def older(tmp_path: Path) -> Settings:
    """A home at the first step, with a room and a station in it."""
    settings = Settings(tmp_path)
    migrating.upgrade(settings.database, to="0001")
    engine = open_engine(settings.database)
    with engine.begin() as connection:
        for statement in _ROOM:
            connection.execute(text(statement))
    engine.dispose()
    return settings


@pytest.mark.parametrize(
    "change",
    ["absorption = 0", "absorption = 1.2", "height_m = -1, absorption = 0.1", "capacity = -1"],
)
def test_a_room_that_cannot_be_is_refused_after_the_step(older: Settings, change: str) -> None:
    """The new rule and the old one both hold in a home that was brought up to date."""
    store = open_home(older)
    with store.engine.connect() as connection, pytest.raises(IntegrityError):
        connection.execute(text(f"update room set {change}"))
    store.close()


def test_rooms_and_what_stands_in_them_outlive_the_step(older: Settings) -> None:
    """The table is made anew around its rows: room, station, checks and indexes are all there, the new cells empty."""
    store = open_home(older)
    with store.engine.connect() as connection:
        row = connection.execute(text("select name, capacity, height_m, absorption from room")).one()
        assert tuple(row) == ("Shop", 9, None, None)
        assert connection.execute(text("select room_id from station")).scalar() == 1
    database = inspect(store.engine)
    assert {check["name"] for check in database.get_check_constraints("room")} == {"ck_room_capacity", "ck_room_sound"}
    assert {index["name"] for index in database.get_indexes("room")} == {"ix_room_floor_id"}
    store.close()
