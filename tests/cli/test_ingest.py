"""`lemel ingest`: several files from a shell, each told, with a status that says whether all were taken in."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import archive.cli
from archive.interviews.intake.taking import take_in
from archive.store.session import Store
from tests.interviews.intake.sounds import write

Ingest = Callable[..., Result]


@pytest.fixture
def ingest(home: Store, monkeypatch: pytest.MonkeyPatch) -> Ingest:
    """The command on a home of this test's own, the pass in this process so that it is quick."""
    monkeypatch.setattr("archive.cli_sound.take_in", lambda _store, given, **more: take_in(home, given, **more))

    def run(*words: object) -> Result:
        return CliRunner().invoke(archive.cli.main, ["--home", str(home.settings.home), "ingest", *map(str, words)])

    return run


def test_without_a_home_or_an_interview_nothing_is_done(ingest: Ingest, tmp_path: Path) -> None:
    """Both are told in words with status 1; a missing option with status 2."""
    source = write(tmp_path / "a.wav", 1)
    unknown = ingest(source, "--interview", "I-77")
    assert (unknown.exit_code, unknown.stdout) == (1, "")
    assert "There is no interview 'I-77' here. There are: I-1, I-2." in unknown.stderr
    assert ingest(source).exit_code == 2
    no_home = CliRunner().invoke(archive.cli.main, ["--home", str(tmp_path / "x"), "ingest", "a", "--interview", "I-1"])
    assert no_home.exit_code == 1
    assert "There is no home in" in no_home.stderr


def test_each_file_is_told_and_the_good_ones_are_taken_in(ingest: Ingest, tmp_path: Path) -> None:
    """One that is not there, a folder, one of text and the same file twice stand in no other's way."""
    good, text = write(tmp_path / "a.wav", 6), tmp_path / "notes.wav"
    text.write_text("Dear Sir")
    said = ingest(tmp_path / "none.wav", tmp_path, text, good, good, "--interview", "I-1", "--json")
    assert said.exit_code == 1
    told = json.loads(said.stdout)
    assert [each["state"] for each in told] == ["failed", "failed", "unreadable", "taken in", "same file"]
    assert [each["recording"] for each in told] == ["", "", "", "I-1-b", "I-1-b"]
    assert "No such file" in told[0]["says"]


def test_all_well_is_status_0(ingest: Ingest, tmp_path: Path) -> None:
    """And another interview may have the same sound when it is said so."""
    source = write(tmp_path / "a.wav", 6)
    first = ingest(source, "--interview", "I-1")
    assert first.exit_code == 0
    assert "Taken in as I-1-b." in first.stdout
    again = ingest(source, "--interview", "I-2", "--all-the-same")
    assert again.exit_code == 0
    assert "Taken in as I-2-b." in again.stdout
