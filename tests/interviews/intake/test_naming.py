"""What files are called here, and the references that recordings get."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as some

from archive.exchange.folder_files import is_file_name
from archive.interviews.intake.naming import kept_name, master_name, next_number, next_ref
from archive.values.identifiers import is_ref


@given(some.text(max_size=400), some.lists(some.text(max_size=20), max_size=3))
def test_whatever_is_given_a_plain_name_is_kept(name: str, taken: list[str]) -> None:
    """Any text at all becomes a file name that a collection folder may hold, and one that is not taken."""
    kept = kept_name(name, taken)
    assert is_file_name(kept)
    assert kept.casefold() not in {each.casefold() for each in taken}


@pytest.mark.parametrize("name", ["interview.toml", "Ties.CSV", "transcript-2.vtt"])
def test_a_master_never_lies_in_the_place_of_a_text(name: str) -> None:
    """What is called like a text of a collection folder keeps its name, with another ending."""
    assert master_name(name) == f"{name}.sound"
    assert master_name(name, [f"{name}.sound"]) == f"{name} (2).sound"


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("../../etc/passwd", "passwd"),
        ("C:\\sound\\tape 3.WAV", "tape 3.WAV"),
        ("a\0b.wav", "ab.wav"),
        ("tape\u202evaw.exe", "tapevaw.exe"),
        ("", "recording"),
        ("...", "recording"),
        ("con.wav", "recording con.wav"),
        ("x" * 300 + ".flac", "x" * 115 + ".flac"),
        ("what? no: this.wav", "what- no- this.wav"),
    ],
)
def test_hostile_names_are_made_plain(name: str, kept: str) -> None:
    """Folders, hidden letters, device names and great length are taken out; the ending stays."""
    assert kept_name(name) == kept


def test_the_same_name_twice_is_told_apart() -> None:
    """Two recorders both write zoom0001.wav."""
    assert kept_name("zoom1.wav", ["zoom1.wav", "ZOOM1 (2).wav"]) == "zoom1 (3).wav"


@pytest.mark.parametrize(
    ("taken", "ref"),
    [
        ([], "I-01-a"),
        (["I-01-a"], "I-01-b"),
        (["I-01-a", "I-01-c"], "I-01-d"),
        (["I-01-z"], "I-01-aa"),
        (["I-01-az"], "I-01-ba"),
        (["I-02-q", "I-01-tape"], "I-01-a"),
    ],
)
def test_references_run_on_and_fill_no_gap(taken: list[str], ref: str) -> None:
    """The letter after the last one that ever stood."""
    assert next_ref("I-01", taken) == ref


def test_a_long_reference_still_leads_to_good_ones() -> None:
    """The letters fit behind whatever an interview is called."""
    assert is_ref(next_ref("I" * 64, []))


def test_numbers_run_on_too() -> None:
    """Interviews and people are numbered in two digits at least."""
    assert next_number("I", ["I-01", "I-09", "I-x", "P-99"]) == "I-10"
    assert next_number("P", []) == "P-01"
