"""Statements, accounts compared, and people."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from archive.interviews.model import Interview
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in
from tests.small_collection import UNNAMED


def _page(client: FlaskClient, address: str, status: int = 200) -> str:
    answer = client.get(address)
    assert answer.status_code == status
    return answer.get_data(as_text=True)


def test_contested_statements_stand_with_both_sides(as_role: SignIn) -> None:
    """Only what is contested is listed, the voice for it before the voice against it, each with its time."""
    page = _page(as_role("reader"), "/reading/accounts/")
    assert page.count('<article class="account">') == 1
    assert "Press hands set their own tools." in page
    assert "They do not agree." in page
    assert page.index("Set your own tool? Always.") < page.index("Never, that I heard.")
    assert "as others told it" in page
    assert "/reading/interviews/I-2?recording=I-2-a&amp;t=19#t=19," in page


def test_a_side_that_is_closed_leaves_no_trace(home: Store) -> None:
    """Without the interview against it, a statement is not contested, and its note, which speaks of that, is gone."""
    client = sign_in(app_of(home).test_client(), "reader")
    with home.changing("tests") as session:
        interview = session.scalars(select(Interview).where(Interview.ref == "I-2")).one()
        assert interview.agreement is not None
        interview.agreement.permissions.clear()
    assert "There are none that you may hear now." in _page(client, "/reading/accounts/")
    page = _page(client, "/reading/statements/s-tools")
    assert "recalled by one" in page
    assert "They do not agree." not in page
    assert "Nothing open to you speaks against it." in page


@pytest.mark.parametrize(
    ("ref", "standing"), [("s-book", "documented"), ("s-tools", "contested"), ("s-rumour", "documented")]
)
def test_a_statement_shows_its_standing(as_role: SignIn, ref: str, standing: str) -> None:
    """The standing is said in words."""
    page = _page(as_role("guide"), f"/reading/statements/{ref}")
    assert re.search(rf"Standing: <strong>{standing}</strong>", page)


def test_a_person_is_shown_as_the_agreement_has_it(as_role: SignIn) -> None:
    """Of an unnamed person there is the other name and the interview, and no trade, year or note."""
    page = _page(as_role("keeper"), "/reading/people/P-2")
    assert "A hand in the loft" in page
    assert not any(part in page for part in UNNAMED.split())
    assert "packer" not in page
    assert "1930s" not in page


def test_a_named_person_is_shown_with_what_is_known(as_role: SignIn) -> None:
    """A narrator under the own name has trade, year and interviews."""
    page = _page(as_role("reader"), "/reading/people/P-1")
    assert "press hand" in page
    assert "1934" in page
    assert "/reading/interviews/I-1" in page


@pytest.mark.parametrize("address", ["/reading/people/P-99", "/reading/statements/s-none"])
def test_unknown_records_are_not_found(as_role: SignIn, address: str) -> None:
    """A wrong reference gives the one page that says nothing."""
    assert "There is nothing here" in _page(as_role("reader"), address, 404)
