"""Every reckoner is whole: it has checks, sources, ranges, units and words for people."""

from __future__ import annotations

import ast
import importlib
from pathlib import Path

import pytest

from archive.reckoners.measures import unit_of
from archive.reckoners.registry import RECKONERS
from archive.reckoners.shape import Kind, Reckoner
from archive.reckoners.sources import SOURCES, Mark
from archive.reckoners.telling import STERLING
from tests.published.checks import Check

RECKONER_FILES = Path(__file__).parents[2] / "archive" / "reckoners"
PUBLISHED = Path(__file__).parents[1] / "published"
all_reckoners = pytest.mark.parametrize("reckoner", RECKONERS.values(), ids=lambda one: one.name)


def published_checks() -> list[Check]:
    """Every check of every file in tests/published/."""
    modules = (importlib.import_module(f"tests.published.{path.stem}") for path in PUBLISHED.glob("test_*.py"))
    return [check for module in modules for check in module.CHECKS]


@all_reckoners
def test_every_reckoner_has_a_published_check(reckoner: Reckoner) -> None:
    """At least one printed figure is held against each reckoner."""
    assert reckoner.name in {check.reckoner for check in published_checks()}


@all_reckoners
def test_every_reckoner_has_sources_and_says_where_it_is_good(reckoner: Reckoner) -> None:
    """Each rests on sources that exist, and tells its limits, its formula and its caution."""
    assert reckoner.sources
    assert set(reckoner.sources) <= set(SOURCES)
    assert reckoner.good_for
    assert reckoner.formula
    assert reckoner.caution


@all_reckoners
def test_every_number_has_a_range_and_a_unit(reckoner: Reckoner) -> None:
    """No number comes in without unit, range and help; none goes out without a unit."""
    for item in reckoner.inputs:
        assert item.title
        assert item.help.endswith(".")
        if item.kind is Kind.NUMBER:
            assert unit_of(item.unit)
            assert item.low < item.high < 1e9
            assert item.sound is None or item.low <= item.sound[0] < item.sound[1] <= item.high
        if item.kind is Kind.CHOICE:
            assert item.choices
            assert item.default is None or item.default in item.choices
    for output in reckoner.outputs:
        assert output.kind is Kind.TEXT or output.unit == STERLING or unit_of(output.unit)


@all_reckoners
def test_keys_are_plain_and_used_once(reckoner: Reckoner) -> None:
    """A key is lower-case words without a unit, the same in a form, a shell and an address."""
    room, _, subject = reckoner.name.partition("/")
    assert room.isalpha()
    assert subject
    for keys in ([item.key for item in reckoner.inputs], [output.key for output in reckoner.outputs]):
        assert len(set(keys)) == len(keys)
        assert all(key.isidentifier() and key.islower() for key in keys)


@pytest.mark.parametrize("path", sorted(RECKONER_FILES.rglob("*.py")), ids=lambda path: path.name)
def test_every_public_function_says_what_it_gives(path: Path) -> None:
    """Formula, units, limits and source stand in the docstring; each module says what it is for."""
    tree = ast.parse(path.read_text("utf-8"))
    assert ast.get_docstring(tree)
    for node in ast.walk(tree):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)) and not node.name.startswith("_"):
            assert ast.get_docstring(node), f"{path.name}: {node.name}"


def test_every_source_is_marked_in_words() -> None:
    """A source that is not a published work says so wherever it is told."""
    for one in SOURCES.values():
        assert one.title
        assert (one.mark is Mark.PUBLISHED) or str(one.mark) in str(one)
