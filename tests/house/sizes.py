"""How large the house's files and functions are: lines, nesting, parameters. A function's docstring does not count."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

BLOCKS = (ast.If, ast.For, ast.AsyncFor, ast.While, ast.With, ast.AsyncWith, ast.Try, ast.Match)


@dataclass(frozen=True)
class Size:
    """How large one thing is, and where it stands."""

    where: str
    lines: int
    nesting: int = 0


def functions(source: str, where: str) -> Iterator[Size]:
    """Every function and method of a module, without docstring and decorators."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            said = node.body[0].end_lineno - node.body[0].lineno + 1 if ast.get_docstring(node) is not None else 0
            yield Size(f"{where}::{node.name}", node.end_lineno - node.lineno + 1 - said, _nesting(node.body))


def _nesting(body: Iterable[ast.stmt]) -> int:
    """How deep blocks lie in blocks; an elif lies as deep as its if."""
    return max((_depth(statement) for statement in body), default=0)


def _depth(statement: ast.stmt) -> int:
    if not isinstance(statement, BLOCKS):
        return 0
    otherwise = getattr(statement, "orelse", [])
    chained = isinstance(statement, ast.If) and len(otherwise) == 1 and isinstance(otherwise[0], ast.If)
    inside = [*getattr(statement, "body", []), *getattr(statement, "finalbody", []), *([] if chained else otherwise)]
    inside += [
        each for part in getattr(statement, "handlers", []) + getattr(statement, "cases", []) for each in part.body
    ]
    return max(1 + _nesting(inside), _depth(otherwise[0]) if chained else 0)


def files(folder: Path, pattern: str) -> list[Size]:
    """Every file of a kind under a folder, by its lines."""
    paths = sorted(folder.rglob(pattern))
    return [Size(path.relative_to(folder.parent).as_posix(), _lines(path)) for path in paths]


def share(numbers: Iterable[int], part: float) -> int:
    """The number that a part of all numbers do not exceed: 0.5 is the median."""
    ranked = sorted(numbers)
    return ranked[min(len(ranked) - 1, int(part * len(ranked)))] if ranked else 0


def row(name: str, sizes: Sequence[Size], aim: int) -> str:
    """One line of the report: how many, median, nine of ten, the largest, and those over the aim."""
    lines = [size.lines for size in sizes]
    over = sorted((size for size in sizes if size.lines > aim), key=lambda size: -size.lines)
    told = "".join(f"\n      {size.lines:>5}  {size.where}" for size in over[:5])
    figures = f"{len(lines):>5} {share(lines, 0.5):>7} {share(lines, 0.9):>6} {max(lines, default=0):>8}"
    return f"  {name:<12}{figures}   {len(over)} over {aim}{told}"


def _lines(path: Path) -> int:
    return len(path.read_text("utf-8").splitlines())
