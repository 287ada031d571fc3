"""TOML files, read with the line of every key and written so that a person can go on with them."""

from __future__ import annotations

import datetime as dt
import json
import math
import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from archive.exchange.faults import FaultList, Place, shown
from archive.exchange.fields import Fields
from archive.exchange.toml_lines import DEEPEST, KeyPath, TomlLines, find_lines

_AT_LINE = re.compile(r"\s*\(at line (\d+), column \d+\)")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_LARGEST = 10**15
_NEST = 6


class TomlTable(Fields):
    """One table of a TOML file. After it is read, `finish` tells the keys that nobody asked for."""

    def __init__(
        self,
        faults: FaultList,
        values: Mapping[str, Any],
        where: str,
        lines: TomlLines,
        path: KeyPath = (),
        offset: int = 0,
    ) -> None:
        super().__init__(faults)
        self.values, self.where, self._lines, self._path, self._offset = values, where, lines, path, offset
        self._asked, self._wrong = set[str](), set[str]()

    def place(self, key: str = "") -> Place:
        line = self._lines.line((*self._path, key) if key else self._path)
        return Place(self.where, line + self._offset if line or self._offset else 0)

    def has(self, key: str) -> bool:
        """Whether the key is given."""
        return key in self.values

    def table(self, key: str) -> TomlTable | None:
        """The table under a key, or None."""
        value = self._get(key, dict, "a table")
        return None if value is None else self._within(value, (key,))

    def tables(self, key: str) -> list[TomlTable]:
        """The tables of an array."""
        value = self._get(key, list, "a list of tables")
        entries = value or []
        if not all(isinstance(entry, dict) for entry in entries):
            self._refuse(key, value, "a list of tables")
            return []
        return [self._within(entry, (key, number)) for number, entry in enumerate(entries)]

    def free(self, key: str) -> dict[str, Any]:
        """A table whose keys are the writer's own: words, finite numbers, true or false, and lists of them."""
        value = self._get(key, dict, "a table")
        if value is None:
            return {}
        if not _is_plain(value, _NEST):
            self._refuse(key, value, "a table of words, numbers, true or false, and lists of these")
            return {}
        return dict(value)

    def finish(self, *more: str) -> None:
        """Tell unknown keys; `more` are known ones that were read elsewhere."""
        known = self._asked | set(more)
        for key in self.values:
            if key not in known:
                self.fault(key, f"the key {shown(key)} is not known here", f"The keys are {', '.join(sorted(known))}")

    def _within(self, values: Mapping[str, Any], path: KeyPath) -> TomlTable:
        return TomlTable(self._faults, values, self.where, self._lines, self._path + path, self._offset)

    def _as_text(self, key: str) -> str | None:
        value = self._get(key, (str, dt.date), "text in double quotes")
        return value.isoformat() if isinstance(value, dt.date) else value

    def _as_number(self, key: str) -> float | int | None:
        value = self._get(key, (int, float), "a number")
        if isinstance(value, int) and abs(value) > _LARGEST:
            self._refuse(key, value, "a number of sensible size")
            return None
        return value  # type: ignore[no-any-return]

    def _as_flag(self, key: str) -> bool | None:
        return self._get(key, bool, "true or false")  # type: ignore[no-any-return]

    def _as_list(self, key: str) -> list[str]:
        value = self._get(key, list, "a list of texts in double quotes")
        if value and not all(isinstance(entry, str) for entry in value):
            self._refuse(key, value, "a list of texts in double quotes")
            return []
        return value or []

    def _get(self, key: str, kinds: type | tuple[type, ...], wanted: str) -> Any:
        self._asked.add(key)
        value = self.values.get(key)
        if value is None:
            return None
        wrong_flag = isinstance(value, bool) and kinds is not bool
        if wrong_flag or isinstance(value, dt.datetime) or not isinstance(value, kinds):
            self._refuse(key, value, wanted)
            return None
        return value

    def _refuse(self, key: str, value: Any, wanted: str) -> None:
        if key not in self._wrong:
            self.fault(key, f"'{key}' is {_brief(value)}", f"It must be {wanted}")
        self._wrong.add(key)

    def _told(self, key: str) -> bool:
        return key in self._wrong


def parse_toml(text: str, where: str, faults: FaultList, offset: int = 0) -> TomlTable | None:
    """The top table of a TOML text that starts `offset` lines into its file; None, with a fault, if it is none."""
    lines = find_lines(text)
    if lines.too_deep:
        allowed = f"Tables, lists and dotted keys may nest {DEEPEST} deep"
        faults.add(Place(where, lines.too_deep + offset), "it nests too deep", allowed)
        return None
    try:
        values = tomllib.loads(text)
    except tomllib.TOMLDecodeError as problem:
        at = _AT_LINE.search(str(problem))
        line = int(at[1]) if at else text.count("\n") + 1
        found = f"it is not TOML: {shown(_AT_LINE.sub('', str(problem)))}"
        faults.add(Place(where, line + offset), found, 'Write key = "text", one key a line')
        return None
    except (ValueError, RecursionError):
        # A figure of thousands of digits is refused by Python itself; the line finder keeps depth in bounds.
        faults.add(Place(where, offset), "it holds a number too large to read", "Use sensible figures")
        return None
    return TomlTable(faults, values, where, lines, offset=offset)


def write_toml(values: Mapping[str, Any]) -> str:
    """A TOML text: keys first, then tables, then arrays of tables. None and absent are the same."""
    return "\n".join(_section(values, ())).strip("\n") + "\n"


def _section(values: Mapping[str, Any], path: tuple[str, ...]) -> list[str]:
    given = {key: value for key, value in values.items() if value is not None}
    lines = [f"{_key(key)} = {toml_value(value)}" for key, value in given.items() if not _is_section(value)]
    for key, value in given.items():
        name = ".".join(_key(part) for part in (*path, key))
        if isinstance(value, Section):
            lines += ["", f"[{name}]", *_section(value.values, (*path, key))]
        elif isinstance(value, Sections):
            for entry in value.entries:
                lines += ["", f"[[{name}]]", *_section(entry, (*path, key))]
    return lines


class Section:
    """A table to be written under a header of its own."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.values = values


class Sections:
    """An array of tables, each to be written under a header of its own."""

    def __init__(self, entries: Sequence[Mapping[str, Any]]) -> None:
        self.entries = entries


def _is_section(value: Any) -> bool:
    return isinstance(value, Section | Sections)


def toml_value(value: Any) -> str:
    """One value on one line, or a text of several lines as a text block."""
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return _text(value)
        case int() | float():
            return repr(value)
        case dt.date():
            return value.isoformat()
        case Mapping():
            return "{" + ", ".join(f"{_key(key)} = {toml_value(entry)}" for key, entry in value.items()) + "}"
        case _:
            return "[" + ", ".join(toml_value(entry) for entry in value) + "]"


def _key(key: str) -> str:
    return key if _BARE_KEY.fullmatch(key) else _line_text(key)


def _line_text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _text(text: str) -> str:
    if "\n" not in text:
        return _line_text(text)
    return '"""\n' + "\n".join(_line_text(line)[1:-1] for line in text.split("\n")) + '"""'


def _brief(value: Any) -> str:
    names = {dict: "a table", list: "a list", bool: str(value).lower()}
    if isinstance(value, int) and abs(value) > _LARGEST:
        return "a number of many digits"
    return names.get(type(value)) or shown(value)


def _is_plain(value: Any, depth: int) -> bool:
    """Whether a value can be kept as JSON and written again."""
    match value:
        case bool():
            return True
        case str():
            return len(value) <= 2000 and value.isprintable()
        case int() | float():
            return math.isfinite(value) and abs(value) <= _LARGEST
        case dict():
            return depth > 0 and all(_is_plain(key, 0) and _is_plain(entry, depth - 1) for key, entry in value.items())
        case list():
            return depth > 0 and all(_is_plain(entry, depth - 1) for entry in value)
    return False
