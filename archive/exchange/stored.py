"""What a load has stored so far, so that records can be tied to one another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from sqlalchemy.orm import Session


class Records:
    """The records added so far, by class and reference."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self._by_ref: defaultdict[type, dict[str, Any]] = defaultdict(dict)

    def add(self, ref: str, record: Any) -> None:
        """Add a record that others will be tied to."""
        self._by_ref[type(record)][ref] = record
        self.session.add(record)

    def get(self, kind: type, ref: str) -> Any:
        """The record of a reference; None for ""."""
        return self._by_ref[kind][ref] if ref else None

    def all(self, kind: type, refs: Iterable[str]) -> list[Any]:
        """The records of references, in their order."""
        return [self._by_ref[kind][ref] for ref in sorted(refs)]
