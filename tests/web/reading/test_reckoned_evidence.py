"""A statement that rests on a sum, in the Reading room."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask.testing import FlaskClient

from archive.evidence.model import Evidence
from archive.exchange.loading import load
from archive.store.session import Store
from tests.conftest import app_of, sign_in, with_accounts
from tests.small_collection import append, write_small_collection

STATEMENT = """
[[statements]]
ref = "s-gross"
text = "28,000 buttons are more than 194 gross."
about = {processes = ["pr-cut"]}
[[statements.evidence]]
side = "for"
kind = "reckoning"
source = "reckoned"
firsthand = true
reckoner = "output/gross"
inputs = {pieces = 28000}
figure = "194 gross and 64"
"""


@pytest.fixture
def reader(empty_home: Store, tmp_path: Path) -> FlaskClient:
    """A reader's browser on a works with a statement that rests on a sum."""
    load(empty_home, write_small_collection(tmp_path / "small", **{"statements.toml": append(STATEMENT)}))
    return sign_in(app_of(with_accounts(empty_home)).test_client(), "reader")


def test_a_sum_no_longer_known_is_told_as_it_was_written(reader: FlaskClient, empty_home: Store) -> None:
    """A statement from before whose reckoner is gone keeps its figure, without an answer or a link."""
    with empty_home.changing("tests") as session:
        session.query(Evidence).filter_by(kind="reckoning").one().reckoner = "output/no-longer"
    answer = reader.get("/reading/statements/s-gross")
    assert answer.status_code == 200
    body = answer.get_data(as_text=True)
    assert "194 gross and 64" in body
    assert "How it is worked out" not in body
    assert 'href="/reckoners/output' not in body


def test_the_sum_is_shown_with_its_working(reader: FlaskClient) -> None:
    """The figure, the answer worked out anew, the steps, and a link to the sum's page with the same inputs."""
    body = reader.get("/reading/statements/s-gross").get_data(as_text=True)
    assert "In gross: 194 gross and 64" in body
    assert "28,000 / 144 = 194 gross, and 64 over." in body
    assert 'href="/reckoners/output/gross?pieces=28000"' in body
    assert "computed" in body
