"""Changes to whole tables; never committed here."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import Table, delete
from sqlalchemy.orm import Session


def empty_tables(session: Session, tables: Iterable[Table]) -> None:
    """Delete every row of tables that are given in order of need: those that lean on others go first."""
    for table in reversed(list(tables)):
        session.execute(delete(table))
