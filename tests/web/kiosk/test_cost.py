"""What a kiosk page costs the database."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient
from sqlalchemy import event

from archive.store.session import Store

MOST = 30

PAGES = (
    "",
    "floors/upper",
    "stations/st-press",
    "voices/",
    "voices/C-1",
    "interviews/I-1",
    "people/P-1",
    "processes/",
    "processes/pr-cut",
    "hazards/hz-fingers",
    "objects/",
    "objects/SM.1",
    "terms/",
    "terms/t-brass",
)


@pytest.mark.parametrize("page", PAGES)
def test_a_page_asks_the_database_few_questions(client: FlaskClient, shared_home: Store, page: str) -> None:
    """No page asks more than a fixed number of selects, however many records it shows."""
    asked: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        asked.append(statement)

    event.listen(shared_home.engine, "before_cursor_execute", note)
    try:
        assert client.get(f"/kiosk/{page}").status_code == 200
    finally:
        event.remove(shared_home.engine, "before_cursor_execute", note)
    assert 0 < len(asked) <= MOST
    assert len(asked) - len(set(asked)) <= 3, "the same question was asked again and again"
