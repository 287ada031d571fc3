"""Transcripts as CSV (RFC 4180), also with semicolons or tabs between the cells, as spreadsheets write them."""

from __future__ import annotations

import csv
import io

from archive.errors import CannotRead
from archive.exchange.typed.model import Block, Raw

MOST_ROWS, MOST_COLUMNS = 50_000, 50
_SEPARATORS = ",;\t|"


def read_csv(text: str, where: str, told: tuple[str, ...] = ()) -> Raw:
    """The rows of a table; which column holds what is found where it is understood."""
    lines = text.strip("\n")
    separator = max(_SEPARATORS, key=lambda mark: _steady(lines, mark))
    blocks: list[Block] = []
    reader = csv.reader(io.StringIO(lines, newline=""), delimiter=separator, strict=True)
    try:
        for cells in reader:
            tidy = [" ".join(cell.split()) for cell in cells]
            if any(tidy):
                blocks.append(_row(tidy, reader.line_num))
            if len(blocks) > MOST_ROWS or len(cells) > MOST_COLUMNS:
                allowed = f"A transcript has {MOST_ROWS} rows and {MOST_COLUMNS} columns at most"
                raise CannotRead(where, reader.line_num, "the table is too large", allowed)
    except csv.Error as problem:
        allowed = 'Put a cell that holds quotes in quotes, and write each quote in it twice: "He said ""no"""'
        raise CannotRead(where, reader.line_num, "the quotes in this row are not closed", allowed) from problem
    return Raw("csv", tuple(blocks), (), told)


def _row(cells: list[str], line: int) -> Block:
    return Block(f"row {line}", cells[0]) if len(cells) == 1 else Block(f"row {line}", cells=tuple(cells))


def _steady(text: str, mark: str) -> tuple[int, int]:
    """How many of the first lines hold a mark, and how often the first one does."""
    first = text.split("\n")[:20]
    return sum(1 for line in first if mark in line), first[0].count(mark)
