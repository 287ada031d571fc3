"""Care is a keeper's alone, and opens nothing by itself: no address names it, no select for readers answers it."""

from __future__ import annotations

import pytest
from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from archive.errors import NotAllowed
from archive.interviews import queries as readers
from archive.interviews.model import Interview
from archive.interviews.transcripts import queries as in_care
from archive.rights.decisions import AGREED, MAY_ASK, OWN_PURPOSE, Allowance, Purpose, Role, Viewer, decide
from archive.rights.model import Permission
from archive.search.access import open_keys
from archive.store.session import Store
from tests.conftest import TODAY, SignIn
from tests.small_collection import CLOSED_WORD

OTHERS = [Role.VISITOR, Role.READER, Role.GUIDE]
CARE = Viewer(Role.KEEPER, Purpose.CARE, TODAY)


@pytest.mark.parametrize("role", OTHERS)
def test_nobody_but_a_keeper_may_ask_for_care(shared_home: Store, role: Role) -> None:
    """A viewer of another role is refused by rule and by select, whatever is asked."""
    viewer = Viewer(role, Purpose.CARE, TODAY)
    assert Purpose.CARE not in MAY_ASK[role]
    assert not viewer.may_ask
    assert not viewer.in_care
    assert not decide(viewer, Allowance(True)).open
    with shared_home.session() as session:
        recording = in_care.recording_in_care(session, CARE, "I-1-a")
        with pytest.raises(NotAllowed):
            in_care.recording_in_care(session, viewer, "I-1-a")
        with pytest.raises(NotAllowed):
            in_care.segments_in_care(session, viewer, recording)


@pytest.mark.parametrize("purpose", AGREED)
def test_a_keeper_who_asks_for_something_else_is_not_in_care(shared_home: Store, purpose: Purpose) -> None:
    """The role alone is not enough: a keeper who reads is a reader like others."""
    with shared_home.session() as session, pytest.raises(NotAllowed):
        in_care.recording_in_care(session, Viewer(Role.KEEPER, purpose, TODAY), "I-1-a")


def test_it_is_no_roles_own_purpose() -> None:
    """Nobody is in care without having asked for it."""
    assert Purpose.CARE not in OWN_PURPOSE.values()
    assert set(AGREED) == set(Purpose) - {Purpose.CARE}


@pytest.mark.parametrize("role", Role)
@pytest.mark.parametrize(
    "address",
    ["/api/v1/interviews?purpose=care", "/api/v1/search?q=press&purpose=care", "/api/v1/interviews/I-1?purpose=care",
     "/media/recordings/I-1-a.webm?for=care", "/media/captions/I-1-a.vtt?for=care",
     "/media/waveforms/I-1-a.json?for=care", "/reading/?q=press&purpose=care"],
)  # fmt: skip
def test_no_address_lets_care_in(client: object, signed_in: SignIn, role: Role, address: str) -> None:
    """An address that names care gets a refusal, or what it would have got without it: never a closed word."""
    browser = client if role is Role.VISITOR else signed_in(role)
    answer = browser.get(address)  # type: ignore[attr-defined]
    assert CLOSED_WORD not in answer.get_data(as_text=True)
    if not address.startswith("/reading"):
        assert answer.status_code in {303, 400, 403, 404}


def test_no_agreement_can_speak_of_care(home: Store) -> None:
    """The database refuses a permission for it."""
    with pytest.raises(IntegrityError), home.changing("tests") as session:
        session.add(Permission(agreement_id=1, purpose="care", allowed=True))


def test_no_select_for_readers_answers_care(shared_home: Store) -> None:
    """A page for readers that were handed a viewer in care by mistake would show nothing at all."""
    with shared_home.session() as session:
        assert readers.interviews(session, CARE) == []
        assert readers.clips(session, CARE) == []
        assert readers.open_segment_count(session, CARE) == 0
        assert {key for key in open_keys(session, CARE) if key.startswith(("i", "c"))} == set()
        assert session.scalars(select(Interview.ref)).all()


def test_in_care_a_keeper_has_every_line(shared_home: Store) -> None:
    """The selects in care give what is closed too, and interviews that are open to nobody."""
    with shared_home.session() as session:
        recording = in_care.recording_in_care(session, CARE, "I-1-a")
        said = " ".join(segment.text for segment in in_care.segments_in_care(session, CARE, recording))
        assert CLOSED_WORD in said
