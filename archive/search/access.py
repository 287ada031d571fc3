"""Which documents of the index a viewer may find, as access keys made by the rooms' own rules."""

from __future__ import annotations

from sqlalchemy.orm import Session

from archive.evidence.queries import open_statement_ids
from archive.interviews.queries import clip_ids, open_interview_ids, open_person_ids
from archive.rights.decisions import Viewer


def open_keys(session: Session, viewer: Viewer) -> frozenset[str]:
    """The keys: "open", "i<interview>" for segments, "c<clip>", "p<person>", "s<statement>"."""
    return frozenset(
        {
            "open",
            *(f"i{key}" for key in open_interview_ids(session, viewer)),
            *(f"c{key}" for key in clip_ids(session, viewer)),
            *(f"p{key}" for key in open_person_ids(session, viewer)),
            *(f"s{key}" for key in open_statement_ids(session, viewer)),
        }
    )
