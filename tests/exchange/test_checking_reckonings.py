"""Sums that a folder names are worked out as it is read."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive.errors import Fault, Unacceptable
from archive.exchange.folder import read_folder
from tests.small_collection import append, swap, write_small_collection

EVIDENCE = """
[[statements]]
ref = "s-sum"
text = "So many gross."
about = {{}}
[[statements.evidence]]
side = "for"
kind = "reckoning"
reckoner = "{name}"
inputs = {inputs}
figure = "{figure}"
"""
RECKONING = """[[reckonings]]
name = "{name}"
inputs = {inputs}
about = ""
+++

## What goes in"""


def statement(tmp_path: Path, name: str, inputs: str, figure: str) -> Path:
    """A folder with a statement that rests on a sum."""
    more = append(EVIDENCE.format(name=name, inputs=inputs, figure=figure))
    return write_small_collection(tmp_path, **{"statements.toml": more})


def process(tmp_path: Path, name: str, inputs: str) -> Path:
    """A folder with a process that tells a sum."""
    more = swap("+++\n\n## What goes in", RECKONING.format(name=name, inputs=inputs))
    return write_small_collection(tmp_path, **{"processes/pr-cut.md": more})


def faults_of(folder: Path) -> tuple[Fault, ...]:
    """What is wrong with a folder."""
    with pytest.raises(Unacceptable) as caught:
        read_folder(folder)
    return caught.value.faults


BAD = [
    ("output/grosz", "{pieces = 5}", "there is no reckoner 'output/grosz'", "the nearest is 'output/gross'", 0),
    ("output/gross", "{pieces = 5, colour = 1}", "'colour' in output/gross: There is no such field", "pieces", 1),
    ("output/gross", "{}", "'pieces' in output/gross: It is empty", "22 gross 5 dozen", 1),
    ("output/gross", '{pieces = "5 kg"}', "'pieces' in output/gross: “kg” is a unit of mass", "dozen", 1),
    ("output/gross", "{pieces = true}", "'pieces' is neither words nor a number", "Write it like", 1),
    ("output/gross", "{pieces = [5]}", "'pieces' is neither words nor a number", "Write it like", 1),
    ("metal/mixing", '{now = "800", wanted = "900", added = "850"}', "metal/mixing has no answer", "never bring", 1),
]


@pytest.mark.parametrize(("name", "inputs", "found", "allowed", "below"), BAD)
def test_a_process_whose_sum_cannot_be_worked(
    tmp_path: Path, name: str, inputs: str, found: str, allowed: str, below: int
) -> None:
    """The fault names file and line: of the name, or of the inputs one line below."""
    (fault,) = faults_of(process(tmp_path / "small", name, inputs))
    assert (fault.where, fault.line) == ("processes/pr-cut.md", 11 + below)
    assert found in fault.found
    assert allowed in fault.allowed


@pytest.mark.parametrize(("name", "inputs", "found", "allowed", "below"), BAD)
def test_a_statement_whose_sum_cannot_be_worked(
    tmp_path: Path, name: str, inputs: str, found: str, allowed: str, below: int
) -> None:
    """The same faults, at the statement's own lines."""
    folder = statement(tmp_path / "small", name, inputs, "")
    lines = (folder / "statements.toml").read_text("utf-8").split("\n")
    (fault,) = faults_of(folder)
    assert (fault.where, fault.line) == ("statements.toml", lines.index(f'reckoner = "{name}"') + 1 + below)
    assert found in fault.found
    assert allowed in fault.allowed


@pytest.mark.parametrize("figure", ["195 gross", "194 gross and 65", "194 kg", "plenty"])
def test_a_figure_that_does_not_follow(tmp_path: Path, figure: str) -> None:
    """A statement whose figure is not in the answer is told, with the answer."""
    folder = statement(tmp_path / "small", "output/gross", "{pieces = 28000}", figure)
    lines = (folder / "statements.toml").read_text("utf-8").split("\n")
    (fault,) = faults_of(folder)
    assert fault.line == lines.index(f'figure = "{figure}"') + 1
    assert f"the figure '{figure}' does not follow" in fault.found
    assert "194 gross and 64" in fault.allowed


def test_a_sum_that_works_is_read(tmp_path: Path) -> None:
    """Process and statement are read when the sum works and the figure follows, or none is written."""
    read_folder(process(tmp_path / "one", "output/gross", "{pieces = 28000}"))
    read_folder(statement(tmp_path / "two", "output/gross", "{pieces = 28000}", "194 gross and 64"))
    draft = read_folder(statement(tmp_path / "three", "output/gross", "{pieces = 28000}", ""))
    assert next(one for one in draft.statements if one.ref == "s-sum").evidence[0].inputs == {"pieces": 28000}
