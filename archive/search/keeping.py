"""Whether the index is in step with the records, and what to do when it is not."""

from __future__ import annotations

import time
from typing import Any

from sqlalchemy.orm import Session

from archive.errors import NotReady
from archive.search import indexing_queries as queries
from archive.search.gateway import SearchIndex
from archive.store.session import Store

_GRACE_S = 30.0
"""How long after a change the index may be behind: whoever made the change may still be writing it."""


def bring_in_step(store: Store, index: SearchIndex) -> bool:
    """Rebuild an index that is missing or behind, as after a crash; gives whether that was needed."""
    with store.session() as session:
        if index.stamp == queries.stamp(session):
            return False
    index.rebuild(store)
    return True


def check_in_step(session: Session, index: SearchIndex, memory: dict[Any, Any]) -> None:
    """NotReady when the index has been behind the records for so long that nobody can be writing it any more.

    `memory` lasts until the records change, so that a question in step costs nothing more.
    """
    if memory.get("in step"):
        return
    wanted = memory.setdefault("stamp", queries.stamp(session))
    memory["in step"] = index.stamp == wanted
    first_seen = memory.setdefault("behind since", time.monotonic())
    if not memory["in step"] and time.monotonic() - first_seen > _GRACE_S:
        raise NotReady("The search index is behind the records. Run lemel reindex to bring it up to date.")
