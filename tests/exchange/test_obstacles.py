"""What stands on the floor in plan/plan.toml, and the figures of doors, stairs and demonstrations that came with it."""

from __future__ import annotations

from pathlib import Path

import pytest
from shapely.geometry import Polygon

from archive.exchange.draft_voices import CollectionDraft
from archive.exchange.drafting import draft_of
from archive.exchange.faults import FaultList
from archive.exchange.folder import read_folder
from archive.exchange.loading import load
from archive.exchange.plan_svg import Drawing, parse_drawing
from archive.exchange.writing import write_folder
from archive.store.session import Store
from tests.small_collection import Change, swap, write_small_collection

PLAN, RUNS = "plan/plan.toml", "demonstrations.toml"


def read(path: Path, **changes: Change) -> CollectionDraft:
    """The small collection with some files changed."""
    return read_folder(write_small_collection(path, **changes))


def drawing(shape: str) -> Drawing:
    """A drawing that holds one shape with the id "thing"."""
    faults = FaultList()
    found = parse_drawing(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{shape}</svg>', "a.svg", faults)
    assert found is not None, faults.faults
    return found


def test_a_group_without_shapes_covers_nothing() -> None:
    """It is refused, as an element that is not there is."""
    with pytest.raises(ValueError, match="no shape"):
        drawing('<g id="thing"/>').footprint("thing", 1)
    with pytest.raises(KeyError):
        drawing('<g id="thing"/>').footprint("other", 1)


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        ('<rect id="thing" x="1" y="1" width="4" height="2"/>', 8),
        ('<path id="thing" d="M0 0 H4 V2 H0 Z"/>', 8),
        ('<line id="thing" x1="0" y1="0" x2="3" y2="4"/>', 5 * 0.1),
        ('<polyline id="thing" points="0,0 4,0 4,4"/>', 8 * 0.1),
        ('<g id="thing"><rect width="2" height="2"/><rect x="6" width="2" height="2"/></g>', 16),
        ('<g id="thing" transform="translate(3 3)"><line x1="0" y1="0" x2="4" y2="0"/><circle r="0"/></g>', 4 * 0.1),
    ],
)
def test_what_a_shape_covers_of_the_floor(shape: str, area: float) -> None:
    """A closed shape covers itself, a line a thin strip, a group everything between its shapes."""
    assert Polygon(drawing(shape).footprint("thing", 0.1)).area == pytest.approx(area)


def test_obstacles_come_with_their_outlines(tmp_path: Path) -> None:
    """A machine drawn as a group, and a rope drawn as a line that is taken to be 5 cm thick."""
    press, rope = read(tmp_path / "small").plan.obstacles
    assert (press.kind, press.room, rope.kind) == ("machine", "shop", "barrier")
    assert Polygon(rope.outline).area == pytest.approx(160 * 5)
    assert Polygon(press.outline).covers(Polygon([(660, 210), (740, 210), (740, 270), (660, 270)]))


def test_a_station_may_lie_on_its_machine(tmp_path: Path) -> None:
    """Its mark may be up to a metre inside: one stands beside it."""
    over = swap('<rect x="660" y="210" width="80" height="60"/>', '<rect x="660" y="210" width="80" height="160"/>')
    assert len(read(tmp_path / "small", **{"plan/ground.svg": over}).plan.obstacles) == 2


def test_without_obstacles_the_figures_are_the_usual_ones(tmp_path: Path) -> None:
    """A plan that tells none has none; doors are level, stairs two metres high, demonstrations not sudden."""
    tables = (Path(__file__).parents[1] / "small-collection" / PLAN).read_text("utf-8")
    draft = read(tmp_path / "small", **{PLAN: tables[: tables.index("[[obstacles]]")]})
    assert draft.plan.obstacles == ()
    assert {door.gradient_percent for door in draft.plan.doors} == {0.0}
    assert {passage.headroom_m for passage in draft.plan.passages} == {2.0}
    assert {demonstration.sudden for demonstration in draft.demonstrations} == {False}


def test_all_of_it_comes_back_from_a_home(empty_home: Store, tmp_path: Path) -> None:
    """Loaded, written out and read again, the plan and the demonstrations are the same."""
    plan = swap("step_mm = 120", "step_mm = 120\ngradient_percent = 6.5")
    runs = swap("stand_back_m", "sudden = true\nstand_back_m")
    folder = write_small_collection(
        tmp_path / "small",
        **{PLAN: lambda text: swap("steps = 12", "headroom_m = 1.8\nsteps = 12")(plan(text)), RUNS: runs},
    )
    given = read_folder(folder)
    assert any(demonstration.sudden for demonstration in given.demonstrations)
    assert max(door.gradient_percent for door in given.plan.doors) == 6.5
    load(empty_home, folder)
    with empty_home.session() as session:
        held = draft_of(session, empty_home.files)
    assert (held.plan, held.demonstrations) == (given.plan, given.demonstrations)
    write_folder(empty_home, tmp_path / "out")
    again = read_folder(tmp_path / "out")
    assert (again.plan, again.demonstrations) == (given.plan, given.demonstrations)
