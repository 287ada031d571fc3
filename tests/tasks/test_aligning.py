"""The work that times a transcript: stored, not over another's words, and never out of a closure."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from archive.audio.aligning.model import AlignedLine, Alignment
from archive.cli import main
from archive.errors import CannotRead, Conflict, NotFound
from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.edits import keep_lines
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of, version, versions
from archive.interviews.transcripts.typed_queries import typed_files
from archive.jobs.model import Job
from archive.jobs.queries import job
from archive.store.session import Store
from archive.tasks import aligning
from archive.tasks.doing import do
from tests.small_collection import CLOSED_WORD

REF = "I-1-a"


def asked(home: Store, *, anew: bool = True) -> str:
    """The key of a new job on the small collection's recording."""
    with home.changing("keeper") as session:
        return aligning.ask_for(session, REF, "keeper", anew=anew)[0].key


def ended(home: Store, key: str) -> Job:
    """The job once it is done."""
    do(home, key)
    with home.session() as session:
        return job(session, key)


def lines(home: Store) -> list[Line]:
    """The transcript as it stands."""
    with home.session() as session:
        return lines_of(session, recording(session, REF))


def never_heard(monkeypatch: pytest.MonkeyPatch, confidence: float) -> None:
    """An ear that puts every line two seconds after the other."""

    def ear(_sound: object, given: list[object], _lexicon: object, **_rest: object) -> Alignment:
        _rest["folder"].mkdir(parents=True, exist_ok=True)  # type: ignore[attr-defined]
        doubt = confidence < 0.5
        placed = [AlignedLine(at * 1_000, at * 1_000 + 900, confidence, doubt) for at, _line in enumerate(given)]
        return Alignment(placed)

    monkeypatch.setattr(aligning, "align", ear)


def test_a_recording_that_is_not_there(home: Store) -> None:
    """Not found, by its reference."""
    with home.session() as session, pytest.raises(NotFound):
        aligning.wanted_of(home, session, "I-9-z")


def test_a_recording_without_words_or_in_another_language(home: Store, tmp_path: Path) -> None:
    """Without words there is nothing to time; a language that is not listened for is told."""
    with home.changing("keeper") as session:
        row = recording(session, REF)
        row.interview.language = "cy"
    with home.session() as session, pytest.raises(Conflict, match="English"):
        aligning.wanted_of(home, session, REF)
    with home.changing("keeper") as session:
        row = recording(session, REF)
        keep_lines(session, row, [], who="keeper", said="None", based_on=row.transcript_version)
    with home.session() as session:
        with pytest.raises(Conflict, match="no words"):
            aligning.wanted_of(home, session, REF)
        with pytest.raises(CannotRead):
            aligning.wanted_of(home, session, REF, typed=tmp_path / "none.txt")


def test_one_work_at_a_time(home: Store) -> None:
    """Asked for twice, the second leads to the first."""
    assert asked(home) == asked(home)


def test_speech_that_is_none_leaves_every_line_in_doubt_and_closed_words_closed(home: Store) -> None:
    """A tone holds no words: all lines are doubtful, and what was closed lies over its closure still."""
    before = lines(home)
    done = ended(home, asked(home))
    assert (done.state, done.says) == ("done", "")
    assert done.outcome["version"] == 1
    assert done.outcome["doubtful"] == [at for at, _line in enumerate(before, 1)]
    after = lines(home)
    assert [line.said for line in after] == [line.said for line in before]
    (closed,) = [line for line in after if CLOSED_WORD in line.text]
    with home.session() as session:
        (closure,) = recording(session, REF).closures
        assert closed.start_ms < closure.end_ms
        assert closure.start_ms < closed.end_ms
    assert not (home.settings.incoming / "aligning" / REF).exists()


def test_words_changed_meanwhile_stand(home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Who changed the transcript while it was aligned is not overwritten, and what was found is not lost."""
    never_heard(monkeypatch, 0.9)
    find = aligning.find_times

    def while_another_writes(*given: object) -> object:
        with home.changing("another") as session:
            row = recording(session, REF)
            now = lines_of(session, row)
            changed = [*now[:-1], Line(*now[-1].row[:4], "mended by another", key=now[-1].key)]
            keep_lines(session, row, changed, who="another", said="Mended", based_on=row.transcript_version)
        return find(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(aligning, "find_times", while_another_writes)
    done = ended(home, asked(home))
    assert done.state == "done"
    assert (done.outcome["overtaken"], done.outcome["theirs"], done.outcome["version"]) == ("another", 0, 2)
    after = lines(home)
    assert after[-1].text == "mended by another"
    assert [line.start_ms for line in after] == [at * 1_000 for at in range(len(after))]


def test_times_become_a_version(home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """The older times are kept as a version of their own."""
    never_heard(monkeypatch, 0.9)
    before = lines(home)
    assert ended(home, asked(home)).outcome["doubtful"] == []
    assert [line.start_ms for line in lines(home)] == [at * 1_000 for at in range(len(before))]
    with home.session() as session:
        row = recording(session, REF)
        assert [each.said for each in versions(session, row)][0] == aligning.SAID
        assert version(session, row, 0).lines[0][0] == before[0].start_ms


def test_a_typed_file_from_the_shell(home: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Its lines take the place of those there; a person's reference is that person, and the file itself is kept."""
    never_heard(monkeypatch, 0.3)
    typed = tmp_path / "talk.txt"
    typed.write_text("Page 1\n\nP-1: We cut the strip.\n\nP-1: And then we rolled it.\n")
    told = CliRunner().invoke(main, ["--home", str(home.settings.home), "align", REF, str(typed)])
    assert told.exit_code == 0, told.output
    assert "2 lines timed, 2 in doubt." in told.output
    assert "Not taken as words, line 1: Page 1 (" in told.output
    assert [(line.speaker, line.text) for line in lines(home)] == [
        ("P-1", "We cut the strip."),
        ("P-1", "And then we rolled it."),
    ]
    with home.session() as session:
        row = recording(session, REF)
        assert row.transcript_state == "draft"
        assert [file.file_name for file in typed_files(session, row)] == ["talk.txt"]
    refused = CliRunner().invoke(main, ["--home", str(home.settings.home), "align", "I-9-z", "--json"])
    assert refused.exit_code == 1
