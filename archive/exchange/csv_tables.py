"""Tables as CSV (RFC 4180): a header row, list cells split by `; `."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence

from archive.errors import Conflict
from archive.exchange.faults import FaultList, Place, shown
from archive.exchange.fields import Fields

LIST = ";"
_NUMBER = re.compile(r"[+-]?\d{1,15}(?:\.\d{1,15})?")


class CsvRow(Fields):
    """One row of a table; an empty cell is a field not given."""

    def __init__(self, faults: FaultList, place: Place, cells: dict[str, str]) -> None:
        super().__init__(faults)
        self._place, self.cells, self._wrong = place, cells, set[str]()

    def place(self, key: str = "") -> Place:
        return self._place

    def split(self, key: str, separator: str) -> list[str]:
        """The parts of a list cell that has its own separator."""
        cell = self.cells.get(key, "").strip()
        return [part.strip() for part in cell.split(separator)] if cell else []

    def _as_text(self, key: str) -> str | None:
        return self.cells.get(key) or None

    def _as_number(self, key: str) -> float | None:
        text = self.cells.get(key, "").strip()
        if not text:
            return None
        if not _NUMBER.fullmatch(text):
            self._wrong.add(key)
            self.fault(key, f"'{key}' is {shown(text)}", "Write a number in figures, such as 12 or 0.5")
            return None
        return float(text)

    def _as_flag(self, key: str) -> bool | None:
        text = self.cells.get(key, "").strip()
        if text not in ("yes", "no", ""):
            self._wrong.add(key)
            self.fault(key, f"'{key}' is {shown(text)}", "It may be yes or no")
        return {"yes": True, "no": False}.get(text)

    def _as_list(self, key: str) -> list[str]:
        return self.split(key, LIST)

    def _told(self, key: str) -> bool:
        return key in self._wrong


def parse_table(text: str, where: str, columns: Sequence[str], faults: FaultList) -> list[CsvRow]:
    """The rows of a table that has exactly these columns, in any order."""
    rows = _lines(text, where, faults)
    header_line, header = next(rows, (1, []))
    if not _is_good_header(header, Place(where, header_line), columns, faults):
        return []
    table = []
    for line, cells in rows:
        if not any(cell.strip() for cell in cells):
            continue
        if len(cells) != len(header):
            found = f"a row of {len(cells)} cells"
            allowed = f"The header has {len(header)}; put text with a comma in double quotes"
            faults.add(Place(where, line), found, allowed)
            continue
        table.append(CsvRow(faults, Place(where, line), dict(zip(header, cells, strict=True))))
    return table


def write_table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table as CSV text."""
    buffer = io.StringIO()
    writer = csv.writer(buffer, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return buffer.getvalue()


def join_list(items: Iterable[str], separator: str = "; ") -> str:
    """A list cell; raises Conflict where an entry holds the separator itself."""
    entries = list(items)
    for entry in entries:
        if separator.strip() in entry:
            raise Conflict(
                f"{shown(entry)} cannot be written in a list cell: take out the '{separator.strip()}' first."
            )
    return separator.join(entries)


def _lines(text: str, where: str, faults: FaultList) -> Iterator[tuple[int, list[str]]]:
    """Each row with the line that it starts on; a row that is no CSV ends the table with a fault."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    while True:
        line = reader.line_num + 1
        try:
            yield line, next(reader)
        except StopIteration:
            return
        except csv.Error as problem:
            faults.add(Place(where, line), f"a row that cannot be read ({problem})", "Check its double quotes")
            return


def _is_good_header(header: list[str], place: Place, columns: Sequence[str], faults: FaultList) -> bool:
    allowed = f"The columns are {', '.join(columns)}"
    problems = [f"there is no column '{name}'" for name in columns if name not in header]
    problems += [f"{shown(name)} is no column of this table" for name in header if name not in columns]
    problems += [f"the column '{name}' stands twice" for name in columns if header.count(name) > 1]
    for found in problems[:20]:
        faults.add(place, found, allowed)
    return not problems
