"""Commands for sound: recordings taken in from a shell."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeRemainingColumn

from archive.errors import CannotRead, LemelError
from archive.interviews.intake import queries
from archive.interviews.intake.naming import kept_name
from archive.interviews.intake.taking import Came, Given, take_in
from archive.settings import Settings
from archive.store.homes import open_home
from archive.store.session import Store

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
    given = Given(path, interview, path.name, WHO, all_the_same)
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
