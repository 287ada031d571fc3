"""README and DEVELOPERS cannot drift from the house."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from archive.cli import main
from tests.house.test_arrows import PACKAGE, ROOT, modules

README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def folders() -> list[str]:
    """Every folder of the package that holds code."""
    places = {path.parent.relative_to(PACKAGE).as_posix() for path in modules()}
    return sorted(place for place in places if place != ".")


def commands(group: click.Group = main, before: str = "") -> Iterator[str]:
    """Every command, with the group it stands in."""
    for name, command in group.commands.items():
        if isinstance(command, click.Group):
            yield from commands(command, f"{before}{name} ")
        else:
            yield before + name


@pytest.mark.parametrize("folder", folders())
def test_every_folder_is_named_for_contributors(folder: str) -> None:
    """DEVELOPERS.md names each folder of the house."""
    assert f"{folder}/" in DEVELOPERS


@pytest.mark.parametrize("command", list(commands()))
def test_every_command_is_named_for_users(command: str) -> None:
    """README.md names each command of the shell."""
    assert f"lemel {command}" in README


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_every_module_says_what_belongs_in_it(path: Path) -> None:
    """Each module opens with a docstring."""
    tree = ast.parse(path.read_text("utf-8"))
    assert ast.get_docstring(tree), f"{path} has no docstring"


@pytest.mark.parametrize("path", sorted((ROOT / "tests").rglob("test_*.py")), ids=lambda path: path.name)
def test_every_test_says_what_it_holds(path: Path) -> None:
    """Each test has a sentence."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            assert ast.get_docstring(node), f"{path.name}: {node.name} has no sentence"
