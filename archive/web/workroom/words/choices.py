"""What a keeper chose on the form, as options to understand a file by, and the people whom its labels stand for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from werkzeug.datastructures import MultiDict

from archive.errors import Fault, Unacceptable
from archive.exchange.typed.model import PARTS, Options, Times, Way
from archive.people.model import Person
from archive.web.workroom.words.aside import Chosen

AS_WRITTEN, NOBODY = "", "no"
MOST_LABELS = 60
_ROLES = {
    "narrator": ("narrator", "interviewee", "informant", "respondent", "a", "answer"),
    "interviewer": ("interviewer", "int", "q", "question"),
}
_LETTERS = {"a", "q"}


@dataclass(frozen=True)
class Known:
    """The people whom a label may stand for: those of this interview by role, and the others."""

    narrators: Sequence[Person]
    interviewers: Sequence[Person]
    others: Mapping[str, str]

    @property
    def refs(self) -> frozenset[str]:
        """All their references."""
        return frozenset(person.ref for person in (*self.narrators, *self.interviewers)) | frozenset(self.others)

    @property
    def labels(self) -> frozenset[str]:
        """What typists may call the people of this interview, in small letters or capitals."""
        own = {way for person in (*self.narrators, *self.interviewers) for way in _ways(person)}
        return frozenset(own | {way.upper() for way in own})


def read_choices(form: MultiDict[str, str], before: Chosen, known: Known) -> Chosen:
    """The choices of a form, over those made before; Unacceptable tells each field that cannot be."""
    how = {name: form.get(name, "").strip() for name in ("speakers", "times", "first", "split", *map(_column, PARTS))}
    faults = [*_faults(how)]
    names = dict(before.names)
    for number in range(MOST_LABELS):
        label, chosen = form.get(f"label-{number}", ""), form.get(f"name-{number}", AS_WRITTEN)
        if not label:
            continue
        if chosen not in (AS_WRITTEN, NOBODY) and chosen not in known.refs:
            faults.append(
                Fault(f"name-{number}", 0, f"Nobody has the reference '{chosen[:64]}'", "Choose one of the list")
            )
        names[label[:200]] = chosen
    if faults:
        raise Unacceptable(faults, "The choices")
    return Chosen(how, names)


def options_of(chosen: Chosen, known: Known, duration_ms: int) -> Options:
    """How the file is to be understood."""
    how = chosen.how
    return Options(
        speakers=Way(how.get("speakers") or Way.AUTO),
        times=Times(how.get("times") or Times.MINUTES),
        first=int(how.get("first") or 0),
        split=how.get("split", "yes") == "yes",
        columns={part: int(how[_column(part)]) for part in PARTS if how.get(_column(part))},
        known=known.labels,
        no_speakers=frozenset(label for label, who in chosen.names.items() if who == NOBODY),
        duration_ms=duration_ms,
    )


def people_of(labels: Sequence[str], chosen: Chosen, known: Known) -> dict[str, str]:
    """The reference that each label stands for: as chosen, else as it seems; those as written are left away."""
    # Letters alone are question and answer where both are there; else they may be anybody's.
    letters = {label.casefold().rstrip(".") for label in labels} >= _LETTERS
    meant = {label: chosen.names.get(label, _seems(label, known, letters=letters)) for label in labels}
    return {label: ref for label, ref in meant.items() if ref not in (AS_WRITTEN, NOBODY)}


def _seems(label: str, known: Known, *, letters: bool) -> str:
    """Whom a label means when it is plain: a reference, a name or its initials, or a role that only one has."""
    if label in known.refs:
        return label
    plain = label.casefold().rstrip(".")
    own = (*known.narrators, *known.interviewers)
    named = [person.ref for person in own if plain in {way.casefold().rstrip(".") for way in _ways(person)}]
    if len(set(named)) == 1:
        return named[0]
    for role, words in _ROLES.items():
        people = known.narrators if role == "narrator" else known.interviewers
        if plain in words and len(people) == 1 and (letters or plain not in _LETTERS):
            return people[0].ref
    return AS_WRITTEN


def _ways(person: Person) -> set[str]:
    parts = person.name.split()
    initials = "".join(part[0] for part in parts)
    ways = {person.ref, person.name, person.initials, initials, ".".join(initials) + ".", parts[0], parts[-1]}
    return {way for way in ways if len(way) > 1}


def _column(part: str) -> str:
    return f"column-{part}"


def _faults(how: Mapping[str, str]) -> list[Fault]:
    found = []
    for name, kind in (("speakers", Way), ("times", Times)):
        if how[name] and how[name] not in set(kind):
            found.append(Fault(name, 0, f"'{how[name][:30]}' is none of the ways", "Choose one of the list"))
    first = how["first"]
    if first and not (first.isascii() and first.isdigit() and len(first) < 7):
        found.append(
            Fault("first", 0, f"'{first[:30]}' is not a whole number", "Give the number of a paragraph, or nothing")
        )
    for part in PARTS:
        column = how[_column(part)]
        if column and column not in {str(number) for number in range(-1, 50)}:
            found.append(Fault(_column(part), 0, f"'{column[:30]}' is no column", "Choose one of the list"))
    return found
