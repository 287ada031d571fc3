"""Where every constant and check of the reckoners comes from, by key, and how well each source was seen."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path


class Mark(StrEnum):
    """How a source was seen."""

    PUBLISHED = "published"
    SECOND_HAND = "second-hand"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Source:
    """A work that a figure rests on; `where` is the chapter, table, page or address within it."""

    key: str
    author: str
    title: str
    edition: str
    where: str
    mark: Mark

    def __str__(self) -> str:
        parts = ", ".join(part for part in (self.author, self.title, self.edition, self.where) if part)
        return parts if self.mark is Mark.PUBLISHED else f"{parts} ({self.mark})"


def _row(row: dict[str, str]) -> Source:
    return Source(row["key"], row["author"], row["title"], row["edition"], row["where"], Mark(row["mark"]))


def _all() -> dict[str, Source]:
    """The rows of sources.csv by key; a key given twice or an unknown mark is a mistake in that file."""
    with Path(__file__).with_name("sources.csv").open(encoding="utf-8", newline="") as file:
        rows = [_row(row) for row in csv.DictReader(file)]
    assert len({row.key for row in rows}) == len(rows), "sources.csv gives a key twice"
    return {row.key: row for row in rows}


SOURCES: Mapping[str, Source] = _all()


def source(key: str) -> Source:
    """The source with this key; a KeyError is a mistake in a reckoner."""
    return SOURCES[key]
