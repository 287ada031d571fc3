"""The sums that a process page tells."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask.testing import FlaskClient

from archive.exchange.loading import load
from archive.processes.queries import process
from archive.store.session import Store
from tests.conftest import app_of
from tests.small_collection import swap, write_small_collection

RECKONING = """
[[reckonings]]
name = "output/gross"
inputs = {pieces = 28000}
about = "A quick hand's day."
+++

## What goes in"""


@pytest.fixture
def told(empty_home: Store, tmp_path: Path) -> FlaskClient:
    """A visitor's browser on a works whose cutting tells a sum."""
    changes = {"processes/pr-cut.md": swap("+++\n\n## What goes in", RECKONING.lstrip("\n"))}
    load(empty_home, write_small_collection(tmp_path / "small", **changes))
    return app_of(empty_home).test_client()


def test_a_sum_that_cannot_be_worked_is_left_out(told: FlaskClient, empty_home: Store) -> None:
    """A record from before, whose sum is no longer known, leaves the page whole and without it."""
    with empty_home.changing("tests") as session:
        process(session, "pr-cut").reckonings[0].name = "output/no-longer"
    answer = told.get("/kiosk/processes/pr-cut")
    assert answer.status_code == 200
    assert "A sum of the trade" not in answer.get_data(as_text=True)


def test_a_process_without_sums_shows_none(client: FlaskClient) -> None:
    """No heading stands where there is nothing under it."""
    assert "A sum of the trade" not in client.get("/kiosk/processes/pr-pack").get_data(as_text=True)


def test_a_sum_is_told_with_the_works_own_figures(told: FlaskClient) -> None:
    """The answer stands in a line, the working folded, and the link leads to the same answer on the sum's page."""
    body = told.get("/kiosk/processes/pr-cut").get_data(as_text=True)
    assert "A quick hand&#39;s day." in body
    assert "In gross: 194 gross and 64" in body
    assert "28,000 / 144 = 194 gross, and 64 over." in body.split("<details>")[1]
    assert 'href="/reckoners/output/gross?pieces=28000&amp;face=kiosk"' in body
    page = told.get("/reckoners/output/gross?pieces=28000&face=kiosk").get_data(as_text=True)
    assert "194 gross and 64" in page
    assert 'href="/kiosk/processes/pr-cut"' in page


def test_the_list_leads_to_the_works_own_figures(told: FlaskClient) -> None:
    """From the list of sums one that a process tells opens with this works' figures."""
    assert 'href="/reckoners/output/gross?pieces=28000"' in told.get("/reckoners/").get_data(as_text=True)
