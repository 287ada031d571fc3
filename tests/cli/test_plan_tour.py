"""The command that plans a tour: refusals in words, the tour in lines and as JSON, and why nothing fits."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import archive.cli
from archive.store.session import Store


def plan_tour(store: Store, *words: object) -> Result:
    """What the command says on a home."""
    asked = ["--home", str(store.settings.home), "plan-tour", "--date", "2026-11-25", *map(str, words)]
    return CliRunner().invoke(archive.cli.main, asked)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--minutes", "2"), "'2.0' is not from 5 to 480"),
        (("--start", "st-nowhere"), "There is no station 'st-nowhere' here"),
        (("--must", "tl-nothing"), "There is no telling 'tl-nothing' here"),
        (("--theme", "dragons"), "'dragons' is not a theme"),
        (("--wishes", "nowhere.toml"), "nowhere.toml"),
    ],
)
def test_what_cannot_be_meant_is_refused(shared_home: Store, words: tuple[str, ...], says: str) -> None:
    """In words, with status 1, and nothing is planned."""
    told = plan_tour(shared_home, *words)
    assert (told.exit_code, "the end" in told.output) == (1, False)
    assert says in told.output


def test_a_tour_is_told_stop_by_stop(shared_home: Store) -> None:
    """Each stop with its minute and tellings, the end, how sure it is, and what was left out and why."""
    told = plan_tour(shared_home, "--minutes", 15, "--group-size", 8, "--start", "st-door", "--leave-out", "tl-badge")
    assert told.exit_code == 0, told.output
    lines = told.output.splitlines()
    assert lines[0].split() == ["0.0", "st-door", "tl-welcome"]
    assert any(line.endswith("the end") for line in lines)
    assert "This is the best there is (proven)." in told.output
    assert any(line.split()[0] == "tl-badge" and line.endswith("you wished to leave it out") for line in lines)


def test_as_json_its_clock_adds_up(shared_home: Store) -> None:
    """Arriving, waiting and leaving follow each other; wishes come from a file as well."""
    told = plan_tour(shared_home, "--minutes", 15, "--group-size", 8, "--json")
    data = json.loads(told.output)
    clock = 0.0
    for stop in data["stops"]:
        assert stop["arrive"] == pytest.approx(clock + stop["walk_minutes"])
        assert stop["leave"] >= stop["arrive"] + stop["wait"]
        clock = stop["leave"]
    assert data["proven"]
    assert data["minutes"] == clock <= 15


def test_wishes_come_from_a_file_and_options_go_before(shared_home: Store, tmp_path: Path) -> None:
    """The file wishes for twenty minutes from the bench; the option starts at the door."""
    wishes = tmp_path / "wishes.toml"
    wishes.write_text('minutes = 20\ngroup_size = 8\nstart = "st-bench"\n', "utf-8")
    first = json.loads(plan_tour(shared_home, "--wishes", wishes, "--json").output)
    other = json.loads(plan_tour(shared_home, "--wishes", wishes, "--start", "st-door", "--json").output)
    assert (first["stops"][0]["station"], other["stops"][0]["station"]) == ("st-bench", "st-door")
    assert max(first["minutes"], other["minutes"]) <= 20


def test_when_nothing_fits_the_conflict_is_told(shared_home: Store) -> None:
    """With status 1, as lines and as JSON."""
    wishes = ("--minutes", 15, "--group-size", 8, "--visit", "st-press", "--pass-by", "st-press")
    told = plan_tour(shared_home, *wishes)
    assert (told.exit_code, "cannot be had together" in told.output) == (1, True)
    data = json.loads(plan_tour(shared_home, *wishes, "--json").output)
    assert {one["wish"] for one in data["conflict"]} == {"must_stations", "not_stations"}
    assert data["helps"]
