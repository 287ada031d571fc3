"""The list of tellings: sifted by station, kind, theme, audience and words, with those that need a look."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from archive.interviews.names import shown_names
from archive.objects.clearance import clearance_on
from archive.plan.model import Station
from archive.plan.queries import stations
from archive.rights.decisions import Viewer
from archive.store.model import Collection
from archive.store.queries import collection
from archive.tours.model import Telling
from archive.tours.telling.judging import grave_count
from archive.tours.telling.queries import every_telling, judged_telling
from archive.tours.titles import shown_title
from archive.web.desk.telling import words


@dataclass(frozen=True)
class Sieve:
    """What the list is sifted by; empty fields let all through."""

    station: str = ""
    kind: str = ""
    theme: str = ""
    audience: str = ""
    words: str = ""
    show: str = ""

    @property
    def any(self) -> bool:
        """Whether it holds anything back."""
        return any((self.station, self.kind, self.theme, self.audience, self.words, self.show))


@dataclass(frozen=True)
class Line:
    """A telling in the list: how many sentences need a look, and whether its machine may not run today."""

    telling: Telling
    title: str
    kind: str
    warnings: int
    lapsed: bool

    @property
    def needs_a_look(self) -> bool:
        """Whether something about it asks to be looked at."""
        return not self.telling.withdrawn and (self.warnings > 0 or self.lapsed)


@dataclass(frozen=True)
class ListPage:
    """The tellings that the sieve lets through, of how many, and what may be chosen."""

    collection: Collection
    sieve: Sieve
    lines: Sequence[Line]
    in_use: int
    to_look_at: int
    withdrawn: int
    stations: Sequence[Station]
    kinds: Mapping[str, str]
    themes: Mapping[str, str]
    audiences: Mapping[str, str]
    depths: Mapping[str, str]

    @property
    def minutes(self) -> float:
        """How long all that is listed takes."""
        return sum(line.telling.minutes for line in self.lines)


def sieve_in(args: Mapping[str, str]) -> Sieve:
    """The sieve that an address names."""
    names = ("station", "kind", "theme", "audience", "words", "show")
    return Sieve(**{name: args.get(name, "").strip()[:100] for name in names})


def list_page(session: Session, viewer: Viewer, sieve: Sieve) -> ListPage:
    """The list, by station."""
    names = shown_names(session, viewer)
    lines = [_line(session, viewer, row, names) for row in every_telling(session, viewer)]
    lines.sort(key=lambda line: (line.telling.station.number, line.telling.kind, line.title))
    return ListPage(
        collection=collection(session),
        sieve=sieve,
        lines=[line for line in lines if _passes(line, sieve)],
        in_use=sum(not line.telling.withdrawn for line in lines),
        to_look_at=sum(line.needs_a_look for line in lines),
        withdrawn=sum(line.telling.withdrawn for line in lines),
        stations=stations(session),
        kinds=words.kinds(),
        themes=words.themes(),
        audiences=words.audiences(),
        depths=words.depths(),
    )


def _line(session: Session, viewer: Viewer, row: Telling, names: dict[int, str]) -> Line:
    machine = row.demonstration.machine if row.demonstration else None
    lapsed = machine is not None and not clearance_on(machine.clearances, viewer.on).valid
    warnings = grave_count(judged_telling(session, viewer, row)) if row.script else 0
    return Line(row, shown_title(row, names), words.kinds()[row.kind], warnings, lapsed)


def _passes(line: Line, sieve: Sieve) -> bool:
    row = line.telling
    if row.withdrawn != (sieve.show == "withdrawn"):
        return False
    if sieve.show == "look" and not line.needs_a_look:
        return False
    chosen = (
        sieve.station in ("", row.station.ref)
        and sieve.kind in ("", row.kind)
        and (not sieve.theme or sieve.theme in row.themes)
        and (not sieve.audience or sieve.audience in row.audiences)
    )
    told = f"{line.title} {row.script} {row.ref}".casefold()
    return chosen and all(word in told for word in sieve.words.casefold().split())
