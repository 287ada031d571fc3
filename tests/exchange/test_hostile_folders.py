"""Two hundred and more collection folders that must be refused, each with a clear fault and nothing else."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from archive.errors import Unacceptable
from archive.exchange.folder import read_folder
from tests.exchange import hostile_prose, hostile_tables
from tests.exchange.hostile import Variant
from tests.small_collection import UNNAMED, write_small_collection

VARIANTS = [*hostile_tables.VARIANTS, *hostile_prose.VARIANTS]


def refused(folder: Path) -> Unacceptable:
    """The error that reading the folder must end in."""
    with pytest.raises(Unacceptable) as caught:
        read_folder(folder)
    return caught.value


def test_there_are_two_hundred() -> None:
    """The table is as long as it is said to be, and no case stands in it twice."""
    assert len(VARIANTS) >= 200
    assert len({(variant.name, variant.says, str(variant.change)) for variant in VARIANTS}) == len(VARIANTS)


@pytest.mark.parametrize("variant", VARIANTS, ids=str)
def test_a_hostile_folder_is_refused_in_words(variant: Variant, tmp_path: Path) -> None:
    """Each variant gives Unacceptable, with a fault in the right file and line that says what is wrong."""
    error = refused(write_small_collection(tmp_path / "folder", **{variant.file: variant.change}))
    fitting = [
        fault
        for fault in error.faults
        if fault.where == variant.where
        and variant.says in f"{fault.found}. {fault.allowed}"
        and variant.line in (-1, fault.line)
    ]
    assert fitting, str(error)
    assert all(fault.found and fault.allowed and len(str(fault)) < 900 for fault in error.faults)


@pytest.mark.parametrize("variant", hostile_prose.UNNAMED_FOUND, ids=str)
def test_the_name_of_an_unnamed_person_is_in_no_fault(variant: Variant, tmp_path: Path) -> None:
    """What must not be said is not said in the refusal either."""
    error = refused(write_small_collection(tmp_path / "folder", **{variant.file: variant.change}))
    told = " ".join("".join(letter if letter.isalnum() else " " for letter in str(error)).casefold().split())
    assert UNNAMED.casefold() not in told


def test_faults_are_told_together(tmp_path: Path) -> None:
    """Three slips in three files give three faults at once."""
    changes = {"people.csv": "ref\n", "terms.csv": "ref\n", "clips.csv": "ref\n"}
    error = refused(write_small_collection(tmp_path / "folder", **changes))
    assert {"people.csv", "terms.csv", "clips.csv"} <= {fault.where for fault in error.faults}


def test_more_faults_than_anyone_reads_are_counted(tmp_path: Path) -> None:
    """A thousand bad rows give five hundred faults and the number of the rest."""
    rows = "ref,preferred,language,meaning,other_words,said_as,broader,related\n" + ",,,,,,,\n;,,,,,,,\n" * 1000
    error = refused(write_small_collection(tmp_path / "folder", **{"terms.csv": rows}))
    assert len(error.faults) <= 501
    assert any("more faults" in fault.found for fault in error.faults)


def test_a_file_named_after_an_unnamed_person_is_refused(tmp_path: Path) -> None:
    """The name may not stand in the name of a file, and the refusal does not repeat it."""
    folder = write_small_collection(tmp_path / "folder")
    (folder / "pictures" / "zebedee_oakapple-quince.txt").write_text("")
    error = refused(folder)
    assert "oakapple" not in str(error).lower()


def test_a_slip_in_the_unnamed_column_lets_no_name_out(tmp_path: Path) -> None:
    """ "Yes" is not "yes", but the name is still guarded while that is told."""
    changes = {"people.csv": lambda text: text.replace(",yes,", ",Yes,").replace("193X", UNNAMED)}
    error = refused(write_small_collection(tmp_path / "folder", **changes))
    assert "It may be yes or no" in str(error)
    assert "Oakapple" not in str(error)


def test_a_misspelt_part_is_not_passed_over(tmp_path: Path) -> None:
    """`Object.csv` is taken for a slip, not for somebody's own file."""
    folder = write_small_collection(tmp_path / "folder")
    os.replace(folder / "demonstrations.toml", folder / "demonstration.toml")
    assert "Call it demonstrations.toml" in str(refused(folder))


def test_what_is_no_folder_is_refused(tmp_path: Path) -> None:
    """A missing folder, a file and an empty folder are each told."""
    (tmp_path / "file").write_text("")
    (tmp_path / "empty").mkdir()
    for name, says in (("none", "it is not a folder"), ("file", "it is not a folder"), ("empty", "collection.toml")):
        assert says in str(refused(tmp_path / name))


@pytest.mark.skipif(os.name == "nt", reason="links need rights on Windows")
@pytest.mark.parametrize("name", ["terms.csv", "pictures/SM.1.png", "interviews/I-1/audio.flac", "plan/ground.svg"])
def test_a_link_out_of_the_folder_is_refused(name: str, tmp_path: Path) -> None:
    """Whatever the link leads to, it is not opened."""
    folder = write_small_collection(tmp_path / "folder")
    os.replace(folder / name, tmp_path / "outside")
    (folder / name).symlink_to(tmp_path / "outside")
    assert "leads out of the folder" in str(refused(folder))


@pytest.mark.skipif(os.name == "nt", reason="links need rights on Windows")
def test_links_that_lead_nowhere_or_round_are_refused(tmp_path: Path) -> None:
    """A broken link and a link to itself are told, and so is a part that is a link to elsewhere."""
    folder = write_small_collection(tmp_path / "folder", **{"terms.csv": None, "clips.csv": None})
    (folder / "terms.csv").symlink_to("gone.csv")
    (folder / "clips.csv").symlink_to("clips.csv")
    os.replace(folder / "tours", tmp_path / "tours")
    (folder / "tours").symlink_to(tmp_path / "tours")
    error = refused(folder)
    assert {fault.where for fault in error.faults if "link" in fault.found or "leads" in fault.found} >= {
        "terms.csv",
        "clips.csv",
        "tours",
    }


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
@pytest.mark.parametrize("name", ["terms.csv", "plan/ground.svg", "interviews/I-1/audio.flac", "pictures/SM.1.png"])
def test_a_pipe_is_not_opened(name: str, tmp_path: Path) -> None:
    """Opening a pipe would wait for ever; it is refused by what it is."""
    folder = write_small_collection(tmp_path / "folder", **{name: None})
    os.mkfifo(folder / name)
    assert "an ordinary file" in str(refused(folder))


def test_a_folder_in_place_of_a_file_is_refused(tmp_path: Path) -> None:
    """And a file in place of a folder."""
    folder = write_small_collection(tmp_path / "folder", **{"terms.csv": None})
    (folder / "terms.csv").mkdir()
    (folder / "tours" / "t-short.toml").unlink()
    (folder / "tours").rmdir()
    (folder / "tours").write_text("")
    told = str(refused(folder))
    assert "terms.csv' is not a file" in told
    assert "tours: it is a file" in told
