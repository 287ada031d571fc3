"""The rule of who may see or hear an interview, alone and as SQL."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select
from sqlalchemy.orm import Session

from archive.audio.guarding import guarded_span
from archive.interviews.model import Interview, Recording, Segment
from archive.interviews.queries import segment_open
from archive.records import metadata
from archive.rights.decisions import AGREED, MAY_ASK, Allowance, Purpose, Role, Viewer, decide
from archive.rights.model import Agreement, Closure, Permission
from archive.rights.queries import clear_of_closures, interview_open
from archive.store.model import KeptFile
from archive.store.session import open_engine
from archive.values.timecode import Span

TODAY = dt.date(2026, 11, 25)
YESTERDAY, TOMORROW = TODAY - dt.timedelta(1), TODAY + dt.timedelta(1)

CASES = [
    ("nothing is said of the purpose", None, False, "does not speak of"),
    ("not allowed", Allowance(False), False, "did not allow"),
    ("allowed", Allowance(True), True, "allowed the purpose"),
    ("from today", Allowance(True, from_date=TODAY), True, "allowed the purpose"),
    ("from tomorrow", Allowance(True, from_date=TOMORROW), False, "closed until 26 November 2026"),
    ("withdrawn today", Allowance(True, withdrawn_on=TODAY), False, "withdrew it on 25 November 2026"),
    ("withdrawn yesterday", Allowance(True, withdrawn_on=YESTERDAY), False, "withdrew it on 24 November 2026"),
    ("to be withdrawn tomorrow", Allowance(True, withdrawn_on=TOMORROW), True, "allowed the purpose"),
    ("never opened, withdrawn", Allowance(False, withdrawn_on=YESTERDAY), False, "did not allow"),
    ("opened and withdrawn", Allowance(True, YESTERDAY, TODAY), False, "withdrew"),
]

allowances = st.none() | st.builds(
    Allowance,
    allowed=st.booleans(),
    from_date=st.none() | st.sampled_from([YESTERDAY, TODAY, TOMORROW]) | st.dates(),
    withdrawn_on=st.none() | st.sampled_from([YESTERDAY, TODAY, TOMORROW]) | st.dates(),
)
viewers = st.builds(Viewer, role=st.sampled_from(Role), purpose=st.sampled_from(AGREED), on=st.just(TODAY) | st.dates())


@pytest.fixture(scope="module")
def database() -> Iterator[Session]:
    """An empty database in memory."""
    engine = open_engine("sqlite://")
    metadata.create_all(engine)
    with Session(engine) as session:
        yield session
    engine.dispose()


@pytest.mark.parametrize(("name", "allowance", "is_open", "words"), CASES, ids=[case[0] for case in CASES])
def test_each_case_of_an_agreement(name: str, allowance: Allowance | None, is_open: bool, words: str) -> None:
    """An interview is open just when its agreement allows the purpose today, and the reason says why."""
    decision = decide(Viewer(Role.VISITOR, Purpose.KIOSK, TODAY), allowance)
    assert decision.open is is_open
    assert words in decision.reason


@pytest.mark.parametrize("role", Role)
def test_a_role_is_refused_purposes_that_are_not_its_own(role: Role) -> None:
    """Whatever the narrator allowed, a role that may not ask for a purpose gets nothing by it."""
    for purpose in set(Purpose) - MAY_ASK[role]:
        assert not decide(Viewer(role, purpose, TODAY), Allowance(True)).open


def test_a_visitor_cannot_read_for_research_or_tours() -> None:
    """Visitors have the purposes kiosk and web alone."""
    assert MAY_ASK[Role.VISITOR] == {Purpose.KIOSK, Purpose.WEB}


@pytest.mark.parametrize(("name", "allowance", "is_open", "words"), CASES, ids=[case[0] for case in CASES])
def test_the_sql_clause_agrees_on_each_case(
    database: Session, name: str, allowance: Allowance | None, is_open: bool, words: str
) -> None:
    """The clause gives the row just when the decision is open."""
    assert _open_in_sql(database, Viewer(Role.VISITOR, Purpose.KIOSK, TODAY), allowance) is is_open


@given(viewer=viewers, allowance=allowances)
@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_sql_clause_agrees_everywhere(database: Session, viewer: Viewer, allowance: Allowance | None) -> None:
    """Decision and clause never differ, for any viewer and any agreement."""
    assert _open_in_sql(database, viewer, allowance) is decide(viewer, allowance).open


@given(
    segment=st.tuples(st.integers(0, 30), st.integers(1, 30)),
    closure=st.tuples(st.integers(0, 30), st.integers(1, 30)),
)
@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_closure_hides_what_it_touches_and_no_more(
    database: Session, segment: tuple[int, int], closure: tuple[int, int]
) -> None:
    """The clause of closures is the overlap of half-open spans with closure and guard, as `Span.overlaps` has it."""
    told, closed = (Span(first * 10, (first + length) * 10) for first, length in (segment, closure))
    guarded = guarded_span(closed, (), 1_000_000)
    with database.begin_nested() as nested:
        recording = _interview(database, Allowance(True), "kiosk")
        database.add(Closure(closed, (), 1_000_000, recording_id=recording.id))
        part = Segment(recording_id=recording.id, position=1, start_ms=told.start_ms, end_ms=told.end_ms, text="words")
        database.add(part)
        database.flush()
        clear = clear_of_closures(Segment.recording_id, Segment.start_ms, Segment.end_ms)
        assert bool(database.scalars(select(Segment.id).where(clear)).all()) is not told.overlaps(guarded)
        viewer = Viewer(Role.KEEPER, Purpose.KIOSK, TODAY)
        seen = select(Segment.id).join(Segment.recording).where(segment_open(viewer))
        assert bool(database.scalars(seen).all()) is not told.overlaps(guarded)
        nested.rollback()


def _open_in_sql(session: Session, viewer: Viewer, allowance: Allowance | None) -> bool:
    with session.begin_nested() as nested:
        _interview(session, allowance, viewer.purpose)
        rows = session.scalars(select(Interview.id).where(interview_open(viewer, Interview.id))).all()
        nested.rollback()
    return bool(rows)


def _interview(session: Session, allowance: Allowance | None, purpose: str) -> Recording:
    interview = Interview(ref="I", title="T", language="en-GB", agreement=Agreement())
    # An agreement that is generous about every other purpose must not matter.
    for other in set(AGREED) - {purpose}:
        interview.agreement.permissions.append(Permission(purpose=other, allowed=True))
    if allowance:
        interview.agreement.permissions.append(
            Permission(
                purpose=purpose,
                allowed=allowance.allowed,
                from_date=allowance.from_date,
                withdrawn_on=allowance.withdrawn_on,
            )
        )
    recording = Recording(
        ref="R", position=1, master_name="a.wav", duration_ms=100, codec="pcm", sample_rate=8000, channels=1
    )
    session.add(KeptFile(sha256="0" * 64, size=1, media_type="audio/wav"))
    recording.master_sha256 = "0" * 64
    interview.recordings.append(recording)
    session.add(interview)
    session.flush()
    return recording
