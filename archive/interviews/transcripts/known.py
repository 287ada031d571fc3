"""Everything that a line may be tied to, with the words it goes by."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy.orm import Session

from archive.interviews.transcripts.queries import people_known
from archive.interviews.transcripts.suggesting import Known
from archive.objects.queries import objects
from archive.people.model import Person
from archive.plan.queries import stations
from archive.processes.queries import processes
from archive.rights.naming import shown_name
from archive.terms.queries import vocabulary


def known_records(session: Session) -> list[Known]:
    """Terms, people, objects, processes and stations. A person who is not to be named goes by no word at all."""
    return [
        *(Known("term", each.ref, each.preferred, (each.preferred, *each.other_words)) for each in vocabulary(session)),
        *(Known("person", each.ref, shown_name(each, ()), tuple(_called(each))) for each in people_known(session)),
        *(Known("object", each.ref, each.name, tuple(_plain(each.name))) for each in objects(session)),
        *(Known("process", each.ref, each.name, (each.name,)) for each in processes(session)),
        *(Known("station", each.ref, each.name, (each.name,)) for each in stations(session)),
    ]


def _called(person: Person) -> Iterator[str]:
    """The whole name, and the last word of it: "Hallam" of Big Joss Hallam."""
    if not person.unnamed:
        yield person.name
        if person.kind == "person":
            yield person.name.split()[-1]


def _plain(name: str) -> Iterator[str]:
    """A name, and what it is without its number or what stands behind a comma: "drop stamp" of "Drop stamp No. 3"."""
    yield name
    bare = name.partition(",")[0].partition(" No. ")[0].strip()
    if " " in bare and bare != name:
        yield bare
