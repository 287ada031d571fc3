"""The house holds: which room may use which, and which room owns which library."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "archive"

# A room may use itself and whatever stands on a lower shelf, never a neighbour on its own shelf or a shelf above.
SHELVES = (
    {"values", "errors", "settings"},
    {"reckoners", "pictures", "audio"},
    {"store"},
    {"people", "accounts", "jobs"},
    {"rights"},
    {"plan", "terms"},
    {"processes"},
    {"objects"},
    {"interviews"},
    {"evidence"},
    {"tours"},
    {"search", "records"},
    {"exchange"},
    {"tasks"},
    {"web"},
    {"app"},
    {"serving"},
    {"cli_tours", "cli_sound"},
    {"cli"},
    {"__main__"},
)
SHELF = {room: height for height, shelf in enumerate(SHELVES) for room in shelf}
# Roles are words of rights, and an account has one.
EXCEPTIONS = {("accounts", "rights"), ("exchange", "rights")}

OWNERS = {
    "flask": {"web", "app"},
    "flask_login": {"web", "app"},
    "flask_wtf": {"web", "app"},
    "flask_babel": {"web", "app"},
    "wtforms": {"web"},
    "sqlalchemy": {"store"},
    "alembic": {"store"},
    "whoosh": {"search"},
    "pydub": {"audio"},
    "av": {"audio"},
    "pocketsphinx": {"audio"},
    "PIL": {"pictures"},
    "argon2": {"accounts"},
    "contourpy": {"reckoners"},
    "huey": {"tasks"},
    "ortools": {"tours"},
    "waitress": {"serving"},
    "click": {"cli", "cli_tours", "cli_sound"},
    "rich": {"cli", "cli_sound"},
}
FURNITURE = {"model.py", "queries.py", "edits.py"}


def modules() -> list[Path]:
    """Every module of the package."""
    return [path for path in sorted(PACKAGE.rglob("*.py")) if "share" not in path.relative_to(PACKAGE).parts]


def room_of(path: Path) -> str:
    """The room that a module stands in; for a module at the top, the module itself."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imports(path: Path) -> Iterator[tuple[str, int]]:
    """Every module that a file imports, at its top or inside a function, with the line."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((name.name, node.lineno) for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} uses a relative import"
            yield node.module or "", node.lineno


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_arrows_run_one_way(path: Path) -> None:
    """A room uses only rooms below it."""
    room = room_of(path)
    if room == "__init__":
        return
    assert room in SHELF, f"{room} has no place in the house; give it a shelf here and a line in DEVELOPERS.md"
    for name, line in imports(path):
        if not name.startswith("archive."):
            continue
        used = name.split(".")[1]
        below = SHELF[used] < SHELF[room]
        assert used == room or below or (room, used) in EXCEPTIONS, f"{path}:{line}: {room} may not use {used}"


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_libraries_stay_with_their_owners(path: Path) -> None:
    """Flask in web, SQLAlchemy in store and the furniture, Whoosh in search, sound and pictures in their rooms."""
    room = room_of(path)
    for name, line in imports(path):
        library = name.split(".")[0]
        if library not in OWNERS or room in OWNERS[library]:
            continue
        if library == "sqlalchemy" and (path.name in FURNITURE or path.name.endswith(("_queries.py", "_edits.py"))):
            continue
        if library == "sqlalchemy" and name == "sqlalchemy.orm" and _only_session(path, line):
            continue
        raise AssertionError(f"{path}:{line}: {library} belongs to {', '.join(sorted(OWNERS[library]))}")


def _only_session(path: Path, line: int) -> bool:
    """Whether the import on a line takes nothing but `Session`, to say what a function is handed."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.lineno == line:
            return {name.name for name in node.names} <= {"Session"}
    return False
