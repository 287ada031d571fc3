"""The work that drafts a transcript: stored and marked, never over another's words, never out of a closure."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from numpy.typing import NDArray

from archive.audio.drafting import speech_model
from archive.audio.drafting.model import Recogniser, SaidWord
from archive.cli import main
from archive.errors import Conflict, NotReady
from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.edits import AS_IT_WAS, keep_lines, set_state
from archive.interviews.transcripts.queries import lines_of, versions
from archive.jobs.model import Job
from archive.jobs.queries import job
from archive.store.session import Store
from archive.tasks import drafting
from archive.tasks.doing import do
from tests.audio.drafting.test_drafting import a_model

REF = "I-1-a"


@pytest.fixture
def with_model(home: Store, monkeypatch: pytest.MonkeyPatch) -> Store:
    """A home with a folder for a model, and an ear in its place that hears the same sentence each second."""
    a_model(home.settings.speech_model)
    monkeypatch.setattr(speech_model, "PACKAGES", ("numpy",))
    monkeypatch.setattr(drafting, "recogniser_of", an_ear)
    return home


def an_ear(_folder: Path, language: str, hot_words: str) -> Recogniser:
    """It is told the language, and the words of the small thesaurus."""
    assert language.startswith("en")
    assert "blank" in hot_words

    def hear(samples: NDArray[np.float32]) -> Iterator[Sequence[SaidWord]]:
        for at in range(0, len(samples) // 16, 1_000):
            yield [SaidWord(word, at + 100, at + 500, 0.9) for word in (" We", " cut", " it.")]

    return hear


def asked(home: Store) -> str:
    """The key of a new job on the small collection's recording, whose words may be replaced."""
    with home.changing("keeper") as session:
        return drafting.ask_for(session, home.settings, REF, "keeper", over=True)[0].key


def ended(home: Store, key: str) -> Job:
    """The job once it is done."""
    do(home, key)
    with home.session() as session:
        return job(session, key)


def test_without_a_model_nothing_is_begun(home: Store) -> None:
    """What is missing is told."""
    with home.changing("keeper") as session, pytest.raises(NotReady):
        drafting.ask_for(session, home.settings, REF, "keeper")
    told = CliRunner().invoke(main, ["--home", str(home.settings.home), "draft", REF])
    assert told.exit_code == 1


@pytest.mark.parametrize("checked", [True, False])
def test_words_that_are_there_are_not_replaced_unasked(with_model: Store, checked: bool) -> None:
    """Neither what a person has checked, nor a draft that somebody may have mended."""
    with with_model.changing("keeper") as session:
        set_state(recording(session, REF), checked=checked)
    with with_model.changing("keeper") as session, pytest.raises(Conflict, match="say so if you want that"):
        drafting.ask_for(session, with_model.settings, REF, "keeper")


def test_a_draft_is_marked_and_stays_closed(with_model: Store) -> None:
    """Its lines are a version of their own, in the state of a draft; what is said in a closure lies in it."""
    assert asked(with_model) == (key := asked(with_model))
    with with_model.session() as session:
        row = recording(session, REF)
        before, length_ms = lines_of(session, row), row.duration_ms
    done = ended(with_model, key)
    assert (done.state, done.outcome["version"]) == ("done", 1), done.says
    with with_model.session() as session:
        row = recording(session, REF)
        after = lines_of(session, row)
        assert row.is_draft
        assert {line.text for line in after} == {"We cut it."}
        assert done.outcome["lines"] == len(after) > length_ms // 2_500
        newest, older = versions(session, row)
        assert (newest.said, older.said) == (drafting.SAID, AS_IT_WAS)
        assert len(older.lines) == len(before)
    assert not (with_model.settings.incoming / "drafting" / REF).exists()


@pytest.mark.parametrize("only_checked", [True, False])
def test_what_a_person_did_meanwhile_stands(
    with_model: Store, monkeypatch: pytest.MonkeyPatch, only_checked: bool
) -> None:
    """Words mended while the draft was made, and words of which somebody said that they are checked."""
    with with_model.changing("keeper") as session:
        set_state(recording(session, REF), checked=False)
    hear = drafting.written_down

    def while_another_works(*given: object) -> object:
        with with_model.changing("another") as session:
            row = recording(session, REF)
            if only_checked:
                set_state(row, checked=True)
            else:
                lines = [line.bare for line in lines_of(session, row)][:-1]
                keep_lines(session, row, lines, who="another", said="Mended", based_on=row.transcript_version)
        return hear(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(drafting, "written_down", while_another_works)
    done = ended(with_model, asked(with_model))
    assert done.state == "done"
    assert "overtaken" in done.outcome
    with with_model.session() as session:
        row = recording(session, REF)
        assert row.is_draft is not only_checked
        assert "We cut it." not in {line.text for line in lines_of(session, row)}


def test_silence_leaves_the_words_as_they_are(with_model: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """A model that hears nothing is told, and nothing is replaced by nothing."""
    monkeypatch.setattr(drafting, "recogniser_of", lambda *_given: lambda _samples: iter(()))
    done = ended(with_model, asked(with_model))
    assert (done.state, "No words were heard" in done.says) == ("failed", True)


def test_the_thesaurus_is_told_only_when_asked(with_model: Store) -> None:
    """And in English alone, since its words are told in English sentences."""
    with with_model.changing("keeper") as session:
        assert "blank" in drafting.wanted_of(with_model, session, REF, over=True).hot_words
        assert drafting.wanted_of(with_model, session, REF, over=True, terms=False).hot_words == ""
        recording(session, REF).interview.language = "cy"
        assert drafting.wanted_of(with_model, session, REF, over=True).hot_words == ""


def test_from_the_shell(with_model: Store) -> None:
    """The same, with its outcome told; without leave it is refused."""
    command = ["--home", str(with_model.settings.home), "draft", REF]
    assert CliRunner().invoke(main, command).exit_code == 1
    told = CliRunner().invoke(main, [*command, "--over", "--json"])
    assert told.exit_code == 0, told.output
    assert json.loads(told.stdout)["version"] == 1
