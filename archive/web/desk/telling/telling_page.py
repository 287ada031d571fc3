"""One telling as it is kept: what is said, what it rests on, and what may be done with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.evidence.queries import statements_by_id
from archive.interviews.names import shown_names
from archive.objects.running.line import Line
from archive.objects.running.queries import lines_for
from archive.rights.decisions import Viewer
from archive.store.model import Change, Collection
from archive.store.queries import collection
from archive.tours.model import Telling
from archive.tours.sheet import ToldItem, told_items
from archive.tours.telling.queries import grounds_of, judged_telling, last_change, telling
from archive.web.desk.telling import words
from archive.web.desk.telling.looked_page import LookedPage, looked_page


@dataclass(frozen=True)
class TellingPage:
    """One telling. `did` is what was just done to it: "kept", "withdrawn" or "restored"."""

    collection: Collection
    telling: Telling
    item: ToldItem
    names: Mapping[int, str]
    lines: Mapping[str, Line]
    looked: LookedPage
    changed: Change | None
    did: str
    kind: str
    themes: str
    audiences: str
    depth: str


def telling_page(session: Session, viewer: Viewer, ref: str, did: str) -> TellingPage:
    """One telling."""
    row = telling(session, viewer, ref)
    names = shown_names(session, viewer)
    keys = [statement.id for statement in row.statements]
    item = told_items([row], statements_by_id(session, viewer, keys), names, viewer.on)[0]
    card = collection(session)
    grounds = grounds_of(session, viewer, keys).values()
    return TellingPage(
        collection=card,
        telling=row,
        item=item,
        names=names,
        lines=lines_for(session, [row.demonstration]),
        looked=looked_page(judged_telling(session, viewer, row), grounds, row.script, card.speaking_pace_wpm),
        changed=last_change(session, ref),
        did=did if did in ("kept", "withdrawn", "restored") else "",
        kind=words.kinds()[row.kind],
        themes=_listed(row.themes, words.themes()),
        audiences=_listed(row.audiences, words.audiences()),
        depth=words.depths()[row.depth],
    )


def _listed(chosen: list[str], named: Mapping[str, str]) -> str:
    return ", ".join(named[word] for word in named if word in chosen)
