"""Commands for sound: recordings taken in, and their words given times, from a shell."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeRemainingColumn

from archive.errors import CannotRead, LemelError
from archive.interviews.intake import queries
from archive.interviews.intake.naming import kept_name
from archive.interviews.intake.taking import Came, Given, take_in
from archive.interviews.transcripts.lines import Line
from archive.settings import Settings
from archive.store.homes import open_home
from archive.store.session import Store
from archive.values.counting import counted
from archive.values.timecode import format_clock

WHO = "shell"
_console = Console(stderr=True, highlight=False)


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--interview", required=True, metavar="REF", help="The interview that the recordings belong to.")
@click.option("--all-the-same", is_flag=True, help="Take in what another interview holds already.")
@click.option("--json", "as_json", is_flag=True, help="Print what came of each file as JSON.")
@click.pass_obj
def ingest(settings: Settings, files: tuple[Path, ...], interview: str, all_the_same: bool, as_json: bool) -> None:
    """Take recordings in: FILES are kept as they are, measured, and given copies that browsers play.

    The status is 0 when every file was taken in, 1 when one was not: the same as one that is there, or unreadable.
    """
    from archive.search.following import follow
    from archive.search.gateway import SearchIndex

    store = open_home(settings)
    click.get_current_context().call_on_close(store.close)
    with store.session() as session:
        queries.interview(session, interview)
    follow(store, SearchIndex(settings.index))
    came: list[tuple[Path, Came]] = []
    with _bars() as bars:
        for path in files:
            bar = bars.add_task(kept_name(path.name), total=1.0, says="")
            came.append((path, _one(store, path, interview, all_the_same, bars, bar)))
            if not as_json:
                click.echo(f"{path}: {came[-1][1].says}")
    if as_json:
        told = [{"file": str(path), **asdict(each)} for path, each in came]
        click.echo(json.dumps(told, ensure_ascii=False, indent=2))
    if any(each.state != "taken in" for _path, each in came):
        sys.exit(1)


def _one(store: Store, path: Path, interview: str, all_the_same: bool, bars: Progress, bar: TaskID) -> Came:
    """One file; what is wrong with it is told, and the others go on."""
    # Whoever names a link in the shell means the file that it leads to.
    given = Given(Path(os.path.realpath(path)), interview, path.name, WHO, all_the_same)
    try:
        return take_in(store, given, progress=lambda share, says: bars.update(bar, completed=share, says=says))
    except LemelError as problem:
        return Came("failed", str(problem))
    except OSError as problem:
        fault = CannotRead(str(path), 0, problem.strerror or "it cannot be opened", "Give a file that is there")
        return Came("failed", str(fault.faults[0]))
    finally:
        bars.update(bar, completed=1.0, says="")


def _bars() -> Progress:
    columns = (TextColumn("{task.description}"), BarColumn(), TimeRemainingColumn(), TextColumn("{task.fields[says]}"))
    return Progress(*columns, console=_console, transient=True)


@click.command()
@click.argument("recording")
@click.argument("transcript", required=False, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--anew", is_flag=True, help="Find the times of all lines, those that a person gave too.")
@click.option("--json", "as_json", is_flag=True, help="Print what came of it as JSON.")
@click.pass_obj
def align(settings: Settings, recording: str, transcript: Path | None, anew: bool, as_json: bool) -> None:
    """Find when each line of RECORDING is said; with a typed TRANSCRIPT, its lines take the place of those there."""
    from archive.search.following import follow
    from archive.search.gateway import SearchIndex
    from archive.tasks import aligning

    store = open_home(settings)
    click.get_current_context().call_on_close(store.close)
    follow(store, SearchIndex(settings.index))
    with store.session() as session:
        wanted = aligning.wanted_of(store, session, recording, anew=anew, typed=transcript)
    with _bars() as bars:
        bar = bars.add_task(recording, total=1.0, says="")
        found, lines = aligning.find_times(
            settings, wanted, lambda share, says: bars.update(bar, completed=share, says=says), lambda: False
        )
    kept = aligning.keep(store, wanted, lines, WHO)
    outcome = {"recording": recording, **kept, **aligning.told(found, lines)}
    if wanted.file:
        outcome["left_out"] = [asdict(each) for each in wanted.file.left_out]
    click.echo(json.dumps(outcome, ensure_ascii=False, indent=2) if as_json else "\n".join(_aligned(outcome, lines)))


def _aligned(outcome: dict[str, Any], lines: Sequence[Line]) -> list[str]:
    doubtful, unheard = outcome["doubtful"], set(outcome["unheard"])
    told = [f"{counted(len(lines), 'line')} timed, {len(doubtful)} in doubt."]
    for number in doubtful:
        why = ", not in the sound" if number in unheard else ""
        told.append(f"  line {number}, {format_clock(lines[number - 1].start_ms)}{why}")
    told += [
        f"Speech that no line tells: {format_clock(start)} to {format_clock(end)}" for start, end in outcome["untold"]
    ]
    for each in outcome.get("left_out", ()):
        told.append(f"Not taken as words, {each['where']}: {each['text']} ({each['why']})")
    return [*told, f"Kept as version {outcome['version']} of the transcript."]


@click.command()
@click.argument("recording")
@click.option("--over", is_flag=True, help="Let the draft take the place of words that are there; they are kept.")
@click.option("--without-terms", is_flag=True, help="Do not tell the model the words of the thesaurus beforehand.")
@click.option("--json", "as_json", is_flag=True, help="Print what came of it as JSON.")
@click.pass_obj
def draft(settings: Settings, recording: str, over: bool, without_terms: bool, as_json: bool) -> None:
    """Write down what is said in RECORDING by a speech model on this computer; it stays marked as a draft."""
    from archive.audio.drafting.speech_model import need_model
    from archive.search.following import follow
    from archive.search.gateway import SearchIndex
    from archive.tasks import drafting

    store = open_home(settings)
    click.get_current_context().call_on_close(store.close)
    need_model(settings.speech_model)
    follow(store, SearchIndex(settings.index))
    with store.session() as session:
        wanted = drafting.wanted_of(store, session, recording, over=over, terms=not without_terms)
    with _bars() as bars:
        bar = bars.add_task(recording, total=1.0, says="")
        lines, untold = drafting.written_down(
            settings, wanted, lambda share, says: bars.update(bar, completed=share, says=says), lambda: False
        )
    version = drafting.keep_draft(store, wanted, lines, WHO)
    outcome = {"recording": recording, "version": version, **drafting.told(lines, untold)}
    if as_json:
        click.echo(json.dumps(outcome, ensure_ascii=False, indent=2))
        return
    click.echo(f"{counted(outcome['lines'], 'line')} written down, {len(outcome['doubtful'])} in doubt.")
    for span in untold:
        click.echo(f"Speech that no line tells: {format_clock(span.start_ms)} to {format_clock(span.end_ms)}")
    click.echo(f"Kept as version {outcome['version']} of the transcript, marked as a draft until a person checks it.")
