"""A memory for answers that hold until the database changes, by whatever process."""

from __future__ import annotations

from typing import Any

from sqlalchemy.orm import Session

_VERSION, _MEMORY = "lemel.version", "lemel.memory"


def memory(session: Session) -> dict[Any, Any]:
    """What was worked out since the database last changed; empty again after any change.

    Each connection keeps its own, by SQLite's count of changes made through others and its own count of those made
    through itself. A session that changes records, and any other database, gets a new dictionary each time.
    """
    connection = session.connection()
    if connection.dialect.name != "sqlite" or "who" in session.info:
        return {}
    driver: Any = connection.connection.dbapi_connection
    version = (driver.execute("PRAGMA data_version").fetchone()[0], driver.total_changes)
    if connection.info.get(_VERSION) != version:
        connection.info[_VERSION], connection.info[_MEMORY] = version, {}
    held: dict[Any, Any] = connection.info[_MEMORY]
    return held
