"""What the kiosk shows of the thesaurus."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup
from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.processes.model import Process
from archive.processes.queries import processes_using
from archive.rights.decisions import Viewer
from archive.terms import queries
from archive.terms.model import Term
from archive.terms.queries import Word
from archive.web.kiosk.explaining import Explainer
from archive.web.kiosk.voices import Quotation, Voice, quotations_about, voices_about


@dataclass(frozen=True)
class TermPage:
    """One word of the trade: its meaning, its other words, its neighbours, and where it is spoken."""

    term: Term
    meaning: Markup
    broader: tuple[Term, ...]
    narrower: tuple[Term, ...]
    related: tuple[Term, ...]
    processes: tuple[Process, ...]
    voices: tuple[Voice, ...]
    quotations: tuple[Quotation, ...]
    words: tuple[Word, ...]


@dataclass(frozen=True)
class TermsPage:
    """Every word, by its first letter."""

    letters: tuple[tuple[str, tuple[Word, ...]], ...]


def term_page(session: Session, viewer: Viewer, ref: str) -> TermPage:
    """The page of one word."""
    term = queries.term(session, ref)
    names = shown_names(session, viewer)
    near = queries.related_terms(session, term)
    explain = Explainer(session, [other.id for others in near.values() for other in others])
    explain.pass_over(term.id)
    about = ("term", term.id)
    return TermPage(
        term=term,
        meaning=explain(term.meaning),
        broader=tuple(near["broader"]),
        narrower=tuple(near["narrower"]),
        related=tuple(near["related"]),
        processes=tuple(processes_using(session, term.id)),
        voices=voices_about(session, viewer, names, about),
        quotations=quotations_about(session, viewer, names, about),
        words=explain.words,
    )


def terms_page(session: Session) -> TermsPage:
    """The page of all words."""
    words = sorted(queries.vocabulary(session), key=lambda word: word.preferred.casefold())
    letters = groupby(words, key=lambda word: word.preferred[:1].upper())
    return TermsPage(tuple((letter, tuple(mine)) for letter, mine in letters))
