"""A home of invented records for the search tests, made without a collection folder: what is closed is in it too.

Interview A (narrator Ada) is open for everything under the own name, with a closure around the word "quatrefoil".
Interview B (narrator Bryn) gives initials on the web; interview C (narrator Cass) is closed until 2041; interview D is
told by an unnamed man, "A hand in the loft", and open for research alone; interview E (narrator Ada) is withdrawn.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

from archive.evidence.model import Evidence, Statement
from archive.interviews.model import Clip, Interview, Recording, Segment, Tie
from archive.objects.model import MuseumObject
from archive.people.model import Person
from archive.plan.model import Floor, Room, Station
from archive.processes.model import Hazard, Process, ProcessSection
from archive.rights.decisions import AGREED, Purpose, Role, Viewer
from archive.rights.model import Agreement, Closure, Permission
from archive.store.model import KeptFile
from archive.store.session import Store
from archive.terms.model import Term
from archive.values.dates import parse_date
from archive.values.timecode import Span

TODAY = dt.date(2026, 11, 25)
LATER = dt.date(2041, 5, 3)
READER = Viewer(Role.READER, Purpose.RESEARCH, TODAY)
VISITOR = Viewer(Role.VISITOR, Purpose.KIOSK, TODAY)
STRANGER = Viewer(Role.VISITOR, Purpose.WEB, TODAY)
GUIDE = Viewer(Role.GUIDE, Purpose.TOUR, TODAY)

UNNAMED = "Zebedee Oakapple"
SOUND = "0" * 64

Spoken = Sequence[tuple[int, str]]
TEN_SECONDS = 10_000


def permissions(closed: Sequence[Purpose] = (), **said: Any) -> list[Permission]:
    """What an agreement says of every purpose."""
    return [Permission(purpose=purpose.value, allowed=purpose not in closed, **said) for purpose in AGREED]


def interview(ref: str, narrator: Person, said: list[Permission], lines: Sequence[str], **more: Any) -> Interview:
    """An interview of one recording, a line every ten seconds."""
    recording = Recording(
        ref=f"{ref}-a",
        position=1,
        master_name="audio.flac",
        master_sha256=SOUND,
        duration_ms=TEN_SECONDS * max(1, len(lines)),
        codec="flac",
        sample_rate=16_000,
        channels=1,
    )
    for number, line in enumerate(lines):
        recording.segments.append(
            Segment(
                position=number,
                start_ms=number * TEN_SECONDS,
                end_ms=(number + 1) * TEN_SECONDS,
                text=line,
                speaker=narrator,
            )
        )
    return Interview(
        ref=ref,
        title=more.pop("title", f"{narrator.name} on the work"),
        language="en-GB",
        narrators=[narrator],
        recordings=[recording],
        agreement=Agreement(permissions=said),
        **more,
    )


def person(ref: str, name: str, **more: Any) -> Person:
    """A narrator."""
    return Person(ref=ref, name=name, roles=["narrator"], **more)


def fill(store: Store) -> Store:
    """Put the records into an empty home."""
    with store.changing("tests") as session:
        session.add(KeptFile(sha256=SOUND, size=1, media_type="audio/flac"))
        session.flush()
        session.add_all(_records())
    return store


def _records() -> list[Any]:
    ada, bryn, cass = person("P-A", "Ada Birch"), person("P-B", "Bryn Marlowe"), person("P-C", "Cassia Thorne")
    hand = person("P-D", UNNAMED, unnamed=True, called="A hand in the loft")
    press_shop = Room(
        ref="press-shop", position=1, name="Press shop", element="r", outline=[], label_x=0, label_y=0, capacity=9
    )
    floor = Floor(
        ref="ground", name="Ground", level=0, svg_name="g.svg", svg="<svg/>", metres_per_unit=0.01, rooms=[press_shop]
    )
    station = Station(ref="st-fly", number=1, name="Row of fly presses", room=press_shop, element="s", x=0, y=0)
    blanking = Process(
        ref="pr-blank", name="Blanking", summary="Discs are cut from strip.", themes=[], stations=[station]
    )
    blanking.sections.append(ProcessSection(position=1, heading="What goes in", body="Annealed strip, gilding metal."))
    press = MuseumObject(
        ref="SM.1", name="Fly press", description="A hand press for blanking.", station=station, made=parse_date("1911")
    )
    first = interview(
        "A",
        ada,
        permissions(),
        [
            "We set our own tools on the fly press, and the colour of the metal was grey.",
            "There was a quatrefoil badge that I must not speak of.",
            "The foreman counted the blanks at noon.",
            "Annealing softened the strip again after rolling.",
        ],
        covers=parse_date("1949/1971"),
    )
    first.recordings[0].closures.append(Closure(Span(12_060, 14_950), (), 60_000, reason="A private matter."))
    first.recordings[0].segments[0].ties.append(Tie(process=blanking, state="accepted"))
    first.recordings[0].segments[0].ties.append(Tie(station=station, state="accepted"))
    first.recordings[0].segments[3].ties.append(Tie(period=parse_date("195X"), state="accepted"))
    first.recordings[0].clips.append(
        Clip(ref="C-A", start_ms=0, end_ms=9_000, title="Ada Birch sets her tools", summary="Who set the tools.")
    )
    first.recordings[0].clips.append(Clip(ref="C-B", start_ms=9_000, end_ms=14_000, title="The quatrefoil"))
    second = interview(
        "B",
        bryn,
        [*permissions([Purpose.WEB])[:3], Permission(purpose="web", allowed=True, name_form="initials")],
        ["Bryn is what they called me, and the vats smelt of almonds.", "The foreman never came near the vats."],
    )
    third = interview("C", cass, permissions(from_date=LATER), ["The embargoed word is tourmaline, said the foreman."])
    fourth = interview(
        "D",
        hand,
        permissions([purpose for purpose in AGREED if purpose is not Purpose.RESEARCH]),
        ["I dipped the brass in the yard; the fume was gamboge."],
        title="A hand in the loft",
    )
    fifth = interview("E", ada, permissions(withdrawn_on=dt.date(2024, 2, 1)), ["I take back what I said of spelter."])
    resting = Statement(ref="S-1", text="Tourmaline was set into badges.")
    resting.evidence.append(Evidence(position=1, side="for", kind="segment", segment=third.recordings[0].segments[0]))
    return [
        floor,
        press,
        Hazard(
            ref="hz-fingers", name="Fingers", summary="Fingers were lost.", then="Then.", now="Now.", cautions="Care."
        ),
        Term(
            ref="t-blank",
            preferred="blank",
            language="en-GB",
            meaning="A disc cut from strip.",
            other_words=["flan", "cut disc"],
        ),
        resting,
        Statement(ref="S-2", text="The presses were worked by women.", stations=[station]),
        first,
        second,
        third,
        fourth,
        fifth,
    ]
