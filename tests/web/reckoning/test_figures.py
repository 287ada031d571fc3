"""Sums drawn on their pages, and where a process or a statement tells them."""

from __future__ import annotations

from flask.testing import FlaskClient

SUMS = "/reckoners"


def text_of(client: FlaskClient, address: str) -> str:
    """The page's text."""
    answer = client.get(address)
    assert answer.status_code == 200, address
    return answer.get_data(as_text=True)


def test_a_sum_without_a_figure_has_no_picture(client: FlaskClient) -> None:
    """Fineness is told in figures alone."""
    assert 'class="drawn"' not in text_of(client, f"{SUMS}/metal/fineness?fineness=18+ct")


def test_a_sum_is_drawn_with_its_table_behind(client: FlaskClient) -> None:
    """The blow's picture has words for those who do not see it, and the same as a table, without script."""
    page = text_of(client, f"{SUMS}/press/drop-stamp-blow?mass=50+kg&fall=1.2+m")
    assert page.count('class="drawn"') == 1
    assert 'role="img" aria-label="Energy of a tup of 50 kg' in page
    assert "The same as a table" in page
    assert '<th scope="row">working blow</th><td>1.2 m</td><td>588 J</td>' in page
    assert "css/figures.css" in page


def test_a_process_shows_its_sum_drawn(demo_client: FlaskClient) -> None:
    """The process of striking tells the blow of the stamp, and draws it."""
    page = text_of(demo_client, "/kiosk/processes/pr-strike")
    assert 'class="drawn"' in page
    assert "css/figures.css" in page
