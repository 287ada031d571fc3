"""Every template is given one frozen dataclass as `page`, and asks for nothing that is not on it."""

from __future__ import annotations

import ast
import dataclasses
import datetime as dt
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask, template_rendered
from jinja2 import Environment, StrictUndefined, meta, nodes

from archive.interviews.model import TranscriptVersion
from archive.jobs import edits
from archive.search.gateway import SearchIndex
from archive.search.keeping import bring_in_step
from archive.store.session import Store
from archive.tours.day.asked import DepartureAsked
from archive.tours.day.edits import add_departure
from archive.tours.given.edits import take_in
from archive.tours.given.handed import read_log
from archive.web.workroom.words.aside import Aside, lay_aside
from tests.conftest import app_of, sign_in
from tests.house.test_arrows import PACKAGE
from tests.tours.given.logs import whole_walk

# One address, on the small collection, of every template that is shown; a template that is new is put here.
ADDRESSES = {
    "fault.html": "/nowhere",
    "workroom/bench/bench.html": "/workroom/recordings/I-1-a/bench",
    "workroom/bench/versions.html": "/workroom/recordings/I-1-a/versions/",
    "workroom/bench/compare.html": "/workroom/recordings/I-1-a/versions/compare?older=0&newer=1",
    "door/front.html": "/",
    "door/sign_in.html": "/sign-in",
    "desk/tours.html": "/desk/",
    "desk/tour.html": "/desk/tours/t-short",
    "desk/sheet.html": "/desk/tours/t-short/sheet",
    "desk/giving/give.html": "/desk/tours/t-short/give",
    "desk/giving/pack.html": "/desk/tours/t-short/pack.zip",
    "desk/giving/pack_sheet.html": "/desk/tours/t-short/pack.zip",
    "desk/giving/outings.html": "/desk/outings/",
    "desk/giving/outing.html": "/desk/outings/1",
    "desk/giving/afterwards.html": "/desk/tours/t-short/afterwards",
    "desk/day/days.html": "/desk/days/",
    "desk/day/day.html": "/desk/days/2026-11-26/",
    "desk/day/departure.html": "/desk/days/2026-11-26/departures/dp-1",
    "desk/day/guide_sheet.html": "/desk/days/2026-11-26/guides/Ada",
    "desk/day/room_sheet.html": "/desk/days/2026-11-26/rooms/shop",
    "desk/jobs/job.html": "/desk/jobs/j0b",
    "desk/planning/wishes.html": "/desk/tours/new",
    "desk/planning/edit.html": "/desk/tours/t-short/edit",
    "desk/planning/nothing_fits.html": "/desk/planning/n0ne",
    "desk/running/card.html": "/desk/demonstrations/dm-press/card",
    "desk/running/demonstration.html": "/desk/demonstrations/dm-press",
    "desk/running/every.html": "/desk/demonstrations/",
    "desk/running/log.html": "/desk/machines/SM.1/log",
    "desk/station.html": "/desk/stations/st-press",
    "desk/telling/list.html": "/desk/tellings/",
    "desk/telling/telling.html": "/desk/tellings/tl-welcome",
    "desk/telling/form.html": "/desk/tellings/new",
    "desk/telling/looked.html": "/desk/tellings/look?script=It+fell+in+1912.",
    "desk/out_of_use.html": "/desk/out-of-use/",
    "desk/noise.html": "/desk/noise/",
    "desk/noise/part.html": "/desk/noise/part",
    "kiosk/plan.html": "/kiosk/",
    "kiosk/station.html": "/kiosk/stations/st-press",
    "kiosk/voices.html": "/kiosk/voices/",
    "kiosk/voice.html": "/kiosk/voices/C-1",
    "kiosk/interview.html": "/kiosk/interviews/I-1",
    "kiosk/person.html": "/kiosk/people/P-1",
    "kiosk/processes.html": "/kiosk/processes/",
    "kiosk/process.html": "/kiosk/processes/pr-cut",
    "kiosk/hazard.html": "/kiosk/hazards/hz-noise",
    "kiosk/objects.html": "/kiosk/objects/",
    "kiosk/object.html": "/kiosk/objects/SM.1",
    "kiosk/terms.html": "/kiosk/terms/",
    "kiosk/term.html": "/kiosk/terms/t-blank",
    "reading/room.html": "/reading/?q=press",
    "reading/interviews.html": "/reading/interviews/",
    "reading/interview.html": "/reading/interviews/I-1",
    "reading/person.html": "/reading/people/P-1",
    "reading/statement.html": "/reading/statements/s-tools",
    "reading/accounts.html": "/reading/accounts/",
    "reading/figures.html": "/reading/figures/",
    "reckoning/list.html": "/reckoners/",
    "reckoning/sum.html": "/reckoners/metal/fineness?fineness=18ct",
    "workroom/home.html": "/workroom/",
    "workroom/intake/recordings.html": "/workroom/recordings/",
    "workroom/intake/recording.html": "/workroom/recordings/I-1-a",
    "workroom/intake/new_interview.html": "/workroom/interviews/new",
    "workroom/intake/upload.html": "/workroom/upload/",
    "workroom/aligning/align.html": "/workroom/recordings/I-1-a/align",
    "workroom/drafting/draft.html": "/workroom/recordings/I-1-a/draft",
    "workroom/turns/turns.html": "/workroom/recordings/I-1-a/turns",
    "workroom/closing/closing.html": "/workroom/recordings/I-1-a/closures",
    "workroom/words/choose.html": "/workroom/recordings/I-1-a/words",
    "workroom/words/look.html": "/workroom/recordings/I-1-a/words/7",
    "workroom/machines/every.html": "/workroom/machines/",
    "workroom/machines/machine.html": "/workroom/machines/SM.1",
    "workroom/machines/paper.html": "/workroom/machines/SM.1/papers/new",
}


def shown_templates() -> list[str]:
    """Every template that a view shows, as the code names it."""
    return sorted({name for path in (PACKAGE / "web").rglob("*.py") for name in _shown_in(path.read_text("utf-8"))})


def _shown_in(source: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "show":
            first = node.args[0] if node.args else None
            if isinstance(first, ast.Constant):
                yield str(first.value)


@pytest.fixture(scope="module")
def strict(shared_home: Store) -> Flask:
    """The app on the small collection, in which a name that is not defined is an error."""
    index = SearchIndex(shared_home.settings.index)
    bring_in_step(shared_home, index)
    index.close()
    with shared_home.changing("tests") as session:
        edits.ask(session, "plan a tour", {}, "keeper").key = "j0b"
        without = edits.ask(session, "plan a tour", {"wishes": {"date": "2026-11-26"}, "ref": None}, "keeper")
        without.key = "n0ne"
        change = {"says": "15 minutes more", "gain": "3 things told", "wishes": {"date": "2026-11-26"}}
        edits.end(without, "done", "", {"conflict": [{"wish": "quiet", "says": "quiet"}], "helps": [change]})
        asked = DepartureAsked("t-short", "Ada", 8, 600, 720, leaves=600)
        add_departure(session, dt.date(2026, 11, 26), asked).ref = "dp-1"
        take_in(session, read_log(whole_walk()), None)
        words = [[0, 4000, "P-3", "", "Can you tell me?", None, False], [4000, 8000, "", "A hand", "I can.", 0.4, True]]
        mended = [[0, 3990, "P-1", "", "Can you tell me now?", None, False]]
        for number, lines in enumerate((words, mended)):
            session.add(TranscriptVersion(recording_id=1, number=number, who="Ada", said="Mended", lines=lines))
    typed = Aside(7, "I-1-a", "talk.txt", "keeper", 0)
    lay_aside(shared_home.settings, typed, b"A talk\n\nADA: (0:03) Yes.\n\nNED: No.\n\nADA: Well.")
    app = app_of(shared_home)
    app.config["PROPAGATE_EXCEPTIONS"] = True
    app.jinja_env.undefined = StrictUndefined
    return app


@pytest.fixture(scope="module")
def keeper(strict: Flask) -> Any:
    """A keeper's browser, who may open every page."""
    return sign_in(strict.test_client(), "keeper")


@pytest.mark.parametrize("template", shown_templates())
def test_a_page_asks_only_for_what_it_is_given(strict: Flask, keeper: Any, template: str) -> None:
    """The page renders with nothing undefined, and every `page.…` in it and its parts is on its dataclass."""
    assert template in ADDRESSES, f"Put an address of {template} into ADDRESSES"
    rendered: dict[str, Any] = {}

    def note(_app: Flask, template: Any, context: dict[str, Any], **_more: Any) -> None:
        rendered[template.name] = context.get("page")

    with template_rendered.connected_to(note, strict):
        keeper.get(ADDRESSES[template])
    page = rendered.get(template)
    assert dataclasses.is_dataclass(page), f"{ADDRESSES[template]} gives {template} no dataclass"
    assert type(page).__dataclass_params__.frozen
    known = {field.name for field in dataclasses.fields(page)} | set(dir(type(page)))
    asked = {
        (part, name) for part in parts_of(strict.jinja_env, template) for name in asked_of_page(strict.jinja_env, part)
    }
    assert {(part, name) for part, name in asked if name not in known} == set()


def parts_of(environment: Environment, template: str) -> set[str]:
    """A template with all that it extends, includes or imports."""
    found, new = set(), {template}
    while new:
        found |= new
        named = (meta.find_referenced_templates(_tree(environment, part)) for part in new)
        new = {name for names in named for name in names if name} - found
    return found


def asked_of_page(environment: Environment, template: str) -> set[str]:
    """The names that a template asks of its page; a macro whose own argument is called `page` asks that."""
    tree = _tree(environment, template)
    macros = [macro for macro in tree.find_all(nodes.Macro) if any(name.name == "page" for name in macro.args)]
    elsewhere = {id(each) for macro in macros for each in macro.find_all(nodes.Getattr)}
    asked = (each for each in tree.find_all(nodes.Getattr) if id(each) not in elsewhere)
    return {each.attr for each in asked if isinstance(each.node, nodes.Name) and each.node.name == "page"}


def _tree(environment: Environment, template: str) -> nodes.Template:
    assert environment.loader
    return environment.parse(environment.loader.get_source(environment, template)[0])
