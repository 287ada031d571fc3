"""How a hostile variant of the small collection is written down: one change, and what the fault must say."""

from __future__ import annotations

from dataclasses import dataclass

from tests.small_collection import Change, append, swap


@dataclass(frozen=True)
class Variant:
    """One change to the small collection, the file that a fault must name, and words that it must hold."""

    name: str
    file: str
    change: Change
    says: str
    where: str
    line: int = -1

    def __str__(self) -> str:
        return self.name


def swapped(file: str, old: str, new: str, says: str, *, where: str = "", line: int = -1) -> Variant:
    """A variant with one text in place of another."""
    shown = f"{file}: {old[:30]!r} -> {new[:40]!r}".encode("unicode_escape").decode("ascii")
    return Variant(shown, file, swap(old, new), says, where or file, line)


def added(file: str, more: str, says: str, *, where: str = "", line: int = -1) -> Variant:
    """A variant with text at the end of a file."""
    shown = f"{file}: + {more[:50]!r}".encode("unicode_escape").decode("ascii")
    return Variant(shown, file, append(more), says, where or file, line)


def whole(file: str, content: Change, says: str, *, name: str = "", where: str = "", line: int = -1) -> Variant:
    """A variant with another file in place of one, or none."""
    shown = name or f"{file}: {str(content)[:50]!r}".encode("unicode_escape").decode("ascii")
    return Variant(shown, file, content, says, where or file, line)
