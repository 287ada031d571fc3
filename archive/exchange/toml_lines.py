"""Where each key and table of a TOML text stands; the standard library's reader does not tell."""

from __future__ import annotations

import re
from dataclasses import dataclass

KeyPath = tuple[str | int, ...]

DEEPEST = 20
# Strings and comments. One that is never closed runs to the end, and no repeat gives back what it took, so that a
# hostile text is passed over once only.
_OPAQUE = re.compile(
    r'"""(?:[^"\\]++|\\[\s\S]?|"(?!""))*+(?:"{3,5}|\Z)'
    r"|'''(?:[^']++|'(?!''))*+(?:'{3,5}|\Z)"
    r'|"(?:[^"\\\n]++|\\[^\n]?)*+"?'
    r"|'[^'\n]*+'?"
    r"|#[^\n]*+"
)
_WORD = r"[A-Za-z0-9_\-\x00]"
_NEXT = rf"[ \t]*+\.[ \t]*+{_WORD}++"
_DOTTED = re.compile(rf"(?<!{_WORD}){_WORD}++(?:{_NEXT}){{{DEEPEST},}}+")
_HEADER = re.compile(rf"[ \t]*+(\[\[?+)[ \t]*+({_WORD}++(?:{_NEXT})*+)[ \t]*+\]")
_ASSIGNMENT = re.compile(rf"[ \t]*+({_WORD}++(?:{_NEXT})*+)[ \t]*+=")


@dataclass(frozen=True)
class TomlLines:
    """Lines by the path of keys and, for arrays of tables, numbers that lead to a value."""

    lines: dict[KeyPath, int]
    too_deep: int

    def line(self, path: KeyPath) -> int:
        """The line of a value, or of the nearest thing around it that is known."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 0)


def find_lines(text: str) -> TomlLines:
    """The lines of a TOML text; `too_deep` is the line where it nests deeper than is read, 0 for none."""
    plain = _OPAQUE.sub(_blank, text)
    lines: dict[KeyPath, int] = {}
    counts: dict[KeyPath, int] = {}
    table: KeyPath = ()
    depth = 0
    for number, (line, written) in enumerate(zip(plain.split("\n"), text.split("\n"), strict=True), 1):
        if _DOTTED.search(line):
            return TomlLines(lines, number)
        if depth == 0:
            header, assignment = _HEADER.match(line), _ASSIGNMENT.match(line)
            if header:
                table = _table(_parts(written, header.span(2)), counts, is_array=header[1] == "[[")
                lines.setdefault(table, number)
                continue
            if assignment:
                lines.setdefault(table + _parts(written, assignment.span(1)), number)
        for mark in line:
            depth = max(0, depth + (mark in "[{") - (mark in "]}"))
            if depth > DEEPEST:
                return TomlLines(lines, number)
    return TomlLines(lines, 0)


def _blank(match: re.Match[str]) -> str:
    """As many letters, but none that means anything; a quoted key stays one word."""
    found = match[0]
    if found[0] == "#":
        return " " * len(found)
    return "\n".join("\0" * len(part) for part in found.split("\n"))


def _parts(written: str, span: tuple[int, int]) -> KeyPath:
    return tuple(part.strip(" \t\"'") for part in written[slice(*span)].split("."))


def _table(parts: KeyPath, counts: dict[KeyPath, int], *, is_array: bool) -> KeyPath:
    """The path of a header, with the number of the table it stands in for each array on the way."""
    path: KeyPath = ()
    for part in parts[:-1]:
        path += (part,)
        if path in counts:
            path += (counts[path],)
    path += parts[-1:]
    if is_array:
        counts[path] = counts.get(path, -1) + 1
        path += (counts[path],)
    return path
