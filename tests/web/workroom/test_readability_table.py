"""How easily the explanations read, on the keeper's page."""

from __future__ import annotations

from pathlib import Path

import pytest

from archive.exchange.loading import load
from archive.store.session import Store
from archive.web.workroom.readability_page import readability_table
from tests.conftest import SignIn
from tests.small_collection import swap, write_small_collection

HARD = (
    "Recrystallisation notwithstanding, polycrystalline microstructures characteristically necessitate interpretation."
)


@pytest.mark.parametrize("role", ["guide", "reader"])
def test_only_the_keeper_is_shown_it(signed_in: SignIn, role: str) -> None:
    """It stands in the Workroom, which is closed to the others."""
    assert signed_in(role).get("/workroom/").status_code == 403


def test_a_home_without_processes_says_what_will_stand_there(empty_home: Store) -> None:
    """Nothing loaded gives no rows and nothing that reads hard."""
    with empty_home.session() as session:
        table = readability_table(session)
    assert (table.rows, table.hard) == ((), 0)


def test_a_text_that_reads_hard_is_marked(empty_home: Store, tmp_path: Path) -> None:
    """A glance in long words is counted as hard, and only that one."""
    changes = {"processes/pr-cut.md": swap("One swing, one blank.", HARD)}
    load(empty_home, write_small_collection(tmp_path / "small", **changes))
    with empty_home.session() as session:
        table = readability_table(session)
        marked = [(row.process.ref, [depth.hard for depth in row.depths]) for row in table.rows]
    assert dict(marked)["pr-cut"] == [True, False, False]
    assert table.hard == 1


def test_the_keeper_sees_ease_and_grade(signed_in: SignIn) -> None:
    """Each process stands in the table with a figure for each depth."""
    body = signed_in("keeper").get("/workroom/").get_data(as_text=True)
    rows = body.split('id="readability"')[1].split("<tbody>")[1].split("</tbody>")[0]
    assert rows.count("<tr>") == 2
    assert rows.count('<td class="figure">') == 6
