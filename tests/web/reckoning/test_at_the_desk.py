"""A statement that rests on a sum, at the Desk."""

from __future__ import annotations

from tests.conftest import SignIn


def test_a_figure_stands_beside_its_statement(demo_signed_in: SignIn) -> None:
    """The guide sees at the station what the sum comes to; where no sum is, nothing is said of one."""
    guide = demo_signed_in("guide")
    assert "Reckoned: about 300 J." in guide.get("/desk/stations/st-drop-stamp").get_data(as_text=True)
    assert "Reckoned:" not in guide.get("/desk/stations/st-patterns").get_data(as_text=True)
