"""Papers and runs as they are kept: once, with their history, through an export and a load."""

from __future__ import annotations

import dataclasses
import datetime as dt
from pathlib import Path

import pytest

from archive.errors import Conflict, NotFound, Unacceptable
from archive.exchange.loading import load
from archive.exchange.writing import write_folder
from archive.objects.clearance import clearance_on
from archive.objects.running import edits, queries
from archive.objects.running.handed import HandedRun
from archive.objects.running.papers import Paper, read_paper
from archive.store.session import Store

DAY = dt.date(2026, 11, 25)
SURVEY = Paper("condition survey", "", dt.date(2026, 1, 1), dt.date(2030, 1, 1), "Looked over.")
INSTRUCTIONS = dataclasses.replace(SURVEY, kind="operating instructions")
RUN = HandedRun(
    "k" * 20, "SM.1", "dm-press", "P-5", dt.datetime(2026, 11, 25, 10), DAY, 4.0, ("Guards.",), faults="Loose."
)


def valid(store: Store) -> bool:
    """Whether the press may run on the day."""
    with store.session() as session:
        return clearance_on(queries.machine(session, "SM.1").clearances, DAY).valid


def add(store: Store, *papers: Paper) -> None:
    """Keep papers of the press."""
    with store.changing("keeper") as session:
        for paper in papers:
            edits.add_paper(session, queries.machine(session, "SM.1"), paper)


def undo_newest(store: Store) -> None:
    """Turn back the last deed."""
    with store.changing("keeper") as session:
        press = queries.machine(session, "SM.1")
        edits.undo_change(session, press, queries.paper_changes(session, press)[0].id)


@pytest.mark.parametrize(
    ("changed", "where"),
    [
        ({"kind": "passport"}, "kind"),
        ({"kind": "operator", "who": ""}, "who"),
        ({"dated": "soon"}, "dated"),
        ({"runs_out": ""}, "runs_out"),
        ({"runs_out": "2020-01-01"}, "runs_out"),
        ({"note": "x" * 3000}, "note"),
    ],
)
def test_a_paper_with_a_fault_is_refused(changed: dict[str, str], where: str) -> None:
    """The field is named."""
    form = {"kind": "risk assessment", "who": "", "dated": "2026-01-01", "runs_out": "2027-01-01", "note": ""}
    with pytest.raises(Unacceptable) as refused:
        read_paper({**form, **changed})
    assert [fault.where for fault in refused.value.faults] == [where]


def test_a_person_who_is_not_there_cannot_be_named(home: Store) -> None:
    """Nothing is kept of the paper."""
    with pytest.raises(Unacceptable):
        add(home, dataclasses.replace(SURVEY, kind="operator", who="P-99"))


def test_a_paper_of_another_machine_is_not_found(home: Store) -> None:
    """A key that is none of this machine's."""
    with home.session() as session, pytest.raises(NotFound):
        queries.paper(session, queries.machine(session, "SM.1"), 999)


def test_papers_added_clear_a_machine_and_withdrawn_ones_do_not(home: Store) -> None:
    """With the two that were lacking it may run; with one withdrawn it may not; undone, it may again."""
    assert not valid(home)
    add(home, SURVEY, INSTRUCTIONS)
    assert valid(home)
    with home.changing("keeper") as session:
        press = queries.machine(session, "SM.1")
        survey = next(row for row in press.clearances if row.kind == "condition survey")
        edits.withdraw_paper(session, press, survey)
    assert not valid(home)
    undo_newest(home)
    assert valid(home)
    undo_newest(home)
    assert not valid(home)


def test_a_correction_is_undone_to_what_it_said(home: Store) -> None:
    """Days and note come back; who did what is written down."""
    add(home, SURVEY)
    with home.changing("keeper") as session:
        press = queries.machine(session, "SM.1")
        row = next(row for row in press.clearances if row.kind == "condition survey")
        edits.correct_paper(session, row, dataclasses.replace(SURVEY, runs_out=dt.date(2031, 1, 1), note="Again."))
    undo_newest(home)
    with home.session() as session:
        press = queries.machine(session, "SM.1")
        row = next(row for row in press.clearances if row.kind == "condition survey")
        assert (row.runs_out, row.note) == (SURVEY.runs_out, SURVEY.note)
        assert {change.who for change in queries.paper_changes(session, press)} == {"keeper"}


def test_an_older_change_is_not_undone_over_a_newer_one(home: Store) -> None:
    """The adding of a paper that was corrected since stays until the correction is undone."""
    add(home, SURVEY)
    with home.changing("keeper") as session:
        press = queries.machine(session, "SM.1")
        row = next(row for row in press.clearances if row.kind == "condition survey")
        edits.correct_paper(session, row, dataclasses.replace(SURVEY, note="Again."))
    with home.changing("keeper") as session:
        press = queries.machine(session, "SM.1")
        oldest = queries.paper_changes(session, press)[-1]
        with pytest.raises(Conflict):
            edits.undo_change(session, press, oldest.id)


def test_papers_survive_an_export_and_a_load(home: Store, tmp_path: Path) -> None:
    """What a keeper added is in the folder; the running log stays in the home, and the undone past is past."""
    add(home, SURVEY, INSTRUCTIONS)
    with home.changing("guide") as session:
        edits.take_run(session, RUN, None, lapsed=[])
    write_folder(home, tmp_path / "out")
    load(home, tmp_path / "out", replace=True)
    assert valid(home)
    with home.session() as session:
        assert [run.key for run in queries.runs_of(session, "SM.1")] == [RUN.key]


def test_a_run_is_kept_once(home: Store) -> None:
    """Handed in twice, also in other words, it stands there once as it came first."""
    for run in (RUN, dataclasses.replace(RUN, minutes=9.0, faults="Other.")):
        with home.changing("guide") as session:
            edits.take_run(session, run, None, lapsed=[])
    with home.session() as session:
        assert [(run.minutes, run.faults) for run in queries.runs_of(session, "SM.1")] == [(4.0, "Loose.")]


def test_a_run_that_was_begun_is_ended_by_the_same_key(home: Store) -> None:
    """Its minutes and faults come with the second handing in."""
    for run in (dataclasses.replace(RUN, minutes=None, faults=""), RUN):
        with home.changing("guide") as session:
            edits.take_run(session, run, None, lapsed=[])
    with home.session() as session:
        assert [(run.minutes, run.faults) for run in queries.runs_of(session, "SM.1")] == [(4.0, "Loose.")]


def test_what_was_not_in_force_is_told_of_a_run(home: Store) -> None:
    """Papers, operator, and a machine that is not there."""
    add(home, SURVEY, INSTRUCTIONS)
    with home.session() as session:
        press = queries.machine(session, "SM.1")
        assert edits.lapsed_on(press, RUN) == []
        assert "not one of the competent" in edits.lapsed_on(press, dataclasses.replace(RUN, operator="P-3"))[0]
        late = dataclasses.replace(RUN, day=dt.date(2030, 1, 2))
        assert edits.lapsed_on(press, late)[0] == "The condition survey ran out on 1 January 2030."
        assert edits.lapsed_on(None, RUN)


def test_a_fault_is_open_until_it_is_mended(home: Store) -> None:
    """Marked mended it goes, opened again it comes back; a run without a fault has none to mend."""
    with home.changing("guide") as session:
        edits.take_run(session, RUN, None, lapsed=[])
        edits.take_run(session, dataclasses.replace(RUN, key="n" * 20, faults=""), None, lapsed=[])
    with home.changing("keeper") as session:
        fault = queries.open_faults(session, "SM.1")[0]
        edits.mend(queries.run(session, "SM.1", fault.run), on=DAY, who="keeper", note="Tightened.")
        assert queries.open_faults(session, "SM.1") == ()
        edits.open_again(queries.run(session, "SM.1", fault.run))
        assert [each.words for each in queries.open_faults(session, "SM.1")] == ["Loose."]
        sound = next(run for run in queries.runs_of(session, "SM.1") if not run.faults)
        with pytest.raises(Conflict):
            edits.mend(sound, on=DAY, who="keeper", note="")
