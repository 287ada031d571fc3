"""What guides did while a narrator's words were open: a tour changed, planned, given, and put on a day.

Agreements are withdrawn afterwards. Whatever these deeds left behind must tell nothing of what is closed since.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from flask.testing import FlaskClient
from sqlalchemy import select

from archive.jobs.queries import jobs_of_kind
from archive.store.session import Store
from archive.tasks.tour_planning import KIND
from archive.tours.model import Departure
from tests.conftest import app_of, sign_in
from tests.house.planted import WITHDRAWN
from tests.tours.given.logs import entry, log
from tests.web.desk.desk_forms import send

OPEN_THEN = dt.date(2019, 12, 30)
VOICE, TALK = f"tl-{WITHDRAWN}", f"tl-talk-{WITHDRAWN}"
_NEW, _DAY = "/desk/tours/new", f"/desk/days/{OPEN_THEN}/"


def do_past_deeds(store: Store) -> None:
    """Do them through the pages, as a guide would, on a day before the withdrawal."""
    app = app_of(store)
    app.config["TODAY"] = lambda: OPEN_THEN
    guide = sign_in(app.test_client(), "guide")
    assert VOICE in guide.get("/desk/tours/t-short/edit").get_data(as_text=True), "nothing was open to be closed"
    _change_a_tour(guide)
    _plan_a_tour(guide, minutes="60")
    _plan_a_tour(
        guide, minutes="5", **{f"telling-{VOICE}": "must", f"telling-{TALK}": "must", "station-st-bench": "not"}
    )
    _give_a_tour(guide)
    assert guide.get(f"/media/clips/C-{WITHDRAWN}.webm").status_code == 200, "no sound was cut to be closed"
    _answered(send(guide, _DAY, f"{_DAY}departures", tour="t-short", guide="Ada", group_size="6",
                   earliest="10:00", latest="12:00"))  # fmt: skip
    _name_what_was_made(store)


def _name_what_was_made(store: Store) -> None:
    """Keys that the walk can try; nobody could guess the real ones."""
    with store.changing("tests") as session:
        session.scalars(select(Departure)).one().ref = "dp-1"
        for job in jobs_of_kind(session, KIND):
            job.key = f"job-{job.id}"


def _change_a_tour(guide: FlaskClient) -> None:
    edit, deeds = "/desk/tours/t-short/edit", "/desk/tours/t-short/deeds"
    for deed in (f"drop-telling 2 {VOICE}", "undo", "redo", "undo", f"pin-telling 2 {VOICE}"):
        _answered(send(guide, edit, deeds, deed=deed))


def _plan_a_tour(guide: FlaskClient, **wishes: Any) -> None:
    typed = {"date": OPEN_THEN.isoformat(), "group_size": "6", "demonstrations": "no", **wishes}
    _answered(send(guide, _NEW, _NEW, **typed))


def _give_a_tour(guide: FlaskClient) -> None:
    planned = [{"station": "st-bench", "walk": 0, "tellings": [{"ref": VOICE, "minutes": 0.5}]}]
    lines = [
        entry("s", 0.0, "started", station="st-bench"),
        entry("t", 0.5, "told", station="st-bench", telling=VOICE),
        entry("d", 0.6, "dropped", station="st-bench", telling=TALK),
        entry("f", 1.0, "finished", station="st-bench"),
    ]
    token = guide.get("/desk/outings/token").get_json()["token"]
    handed = log(*lines, planned=planned, given_on=OPEN_THEN.isoformat())
    _answered(guide.post("/desk/outings/", json=handed, headers={"X-CSRFToken": token}))


def _answered(answer: Any) -> None:
    assert answer.status_code in (200, 303), answer.get_data(as_text=True)[-1500:]
