"""One document of the index: the words that find a record, and the keys that say who may know of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from archive.search.schema import NAMED

OPEN = "open"
KINDS = ("segment", "clip", "object", "process", "hazard", "person", "term", "statement")


@dataclass(frozen=True)
class Document:
    """What the index is told of a record.

    `refs` holds, by field, the references it can be filtered and counted by; `names` the words by which a
    reader may write them; `ways` the ways to say a term. Only keys can be read back out of the index.
    """

    kind: str
    id: int
    access: str
    text: str
    title: str = ""
    refs: dict[str, list[str]] = field(default_factory=dict)
    names: dict[str, list[str]] = field(default_factory=dict)
    ways: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """What it is known by in the index."""
        return key_of(self.kind, self.id)

    def fields(self) -> dict[str, Any]:
        """The fields as Whoosh takes them; empty ones are left out."""
        held: dict[str, Any] = {
            "key": self.key,
            "access": self.access,
            "id": self.id,
            "kind": [self.kind],
            "text": self.text,
            "title": self.title,
            "words": f"{self.title} {self.text}" if self.title else self.text,
            "term_words": list(self.ways),
        }
        held |= self.refs
        held |= {NAMED[name]: " ".join(names) for name, names in self.names.items()}
        return {name: value for name, value in held.items() if value}


def key_of(kind: str, record_id: int) -> str:
    """The key of the document of a record."""
    return f"{kind}:{record_id}"
