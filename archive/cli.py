"""The command `lemel`: the same work from a shell."""

from __future__ import annotations

import functools
import json
import shutil
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.progress import Progress

from archive import __version__, serving
from archive.accounts.edits import add_account
from archive.cli_sound import align, draft, ingest
from archive.cli_tours import plan_tour
from archive.errors import Conflict, LemelError
from archive.rights.decisions import AGREED, Purpose, Role, Viewer
from archive.settings import Settings, demo_home, shared_folder
from archive.store.homes import make_home, open_home
from archive.store.session import Store
from archive.values.timecode import format_clock

DEMO_SIGN_INS = (("guide", "guide-of-ellmarch"), ("reader", "reader-of-ellmarch"), ("keeper", "keeper-of-ellmarch"))
DEMO_MARK = "this-is-a-demo-home"
PORT = 8750
_console = Console(stderr=True, highlight=False)


class Commands(click.Group):
    """A group whose commands tell Lemel's own errors in words, with status 1, and never as a traceback."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except LemelError as error:
            click.echo(str(error), err=True)
            ctx.exit(1)


@click.group(cls=Commands)
@click.version_option(__version__, prog_name="lemel")
@click.option("--home", type=click.Path(path_type=Path, file_okay=False), help="The home folder (else LEMEL_HOME).")
@click.pass_context
def main(context: click.Context, home: Path | None) -> None:
    """Lemel: voices, objects and processes of a preserved workshop, on its floor plan."""
    context.obj = Settings.from_environment(home)


@main.command()
@click.option("--port", default=PORT, show_default=True, type=click.IntRange(0, 65535))
@click.option("--no-serve", is_flag=True, help="Load the demo and stop.")
@click.pass_context
def demo(context: click.Context, port: int, no_serve: bool) -> None:
    """Load the demo collection fresh and serve it on this machine alone."""
    given = context.parent.params["home"] if context.parent else None
    settings = Settings((given or demo_home()).absolute())
    store = _fresh_demo(settings)
    click.echo(f"The demo collection stands in {settings.home}")
    click.echo("Sign-ins for the demo:")
    for name, password in DEMO_SIGN_INS:
        click.echo(f"  {name:<7} {password}")
    if not no_serve:
        serving.serve(store, "127.0.0.1", port, _say)


@main.command()
@click.pass_obj
def init(settings: Settings) -> None:
    """Make an empty home."""
    make_home(settings).close()
    click.echo(f"The home is {settings.home}. Load a collection folder with: lemel load FOLDER")


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--replace", is_flag=True, help="Put the folder in the place of what the home holds; keeps a backup.")
@click.pass_obj
def load(settings: Settings, folder: Path, replace: bool) -> None:
    """Read a collection folder into the home; tells every fault and stores nothing if there are any."""
    _load(_opened(make_home(settings)), folder, replace=replace)


@main.command()
@click.option("--host", default="127.0.0.1", show_default=True)
@click.option("--port", default=PORT, show_default=True, type=click.IntRange(0, 65535))
@click.pass_obj
def serve(settings: Settings, host: str, port: int) -> None:
    """Serve the home to browsers."""
    serving.serve(_opened(open_home(settings)), host, port, _say)


@main.command()
@click.option("--with-parent", is_flag=True, hidden=True)
@click.pass_obj
def work(settings: Settings, with_parent: bool) -> None:
    """Do the home's work in the background, as `serve` and `demo` do of themselves; for use beside other servers."""
    serving.work(_opened(open_home(settings)), with_parent=with_parent)


@main.command()
@click.pass_obj
def reindex(settings: Settings) -> None:
    """Make the search index anew beside the old one, then put it in its place."""
    from archive.search.gateway import SearchIndex

    store = _opened(open_home(settings))
    count = SearchIndex(settings.index).rebuild(store)
    click.echo(f"The index holds {count} entries.")


@main.command()
@click.argument("folder", required=False, type=click.Path(path_type=Path))
@click.pass_obj
def check(settings: Settings, folder: Path | None) -> None:
    """Read every kept file again and compare checksums; or, given a FOLDER, tell its faults without loading it."""
    if folder is not None:
        from archive.exchange.folder import read_folder

        read_folder(folder)
        click.echo(f"{folder} has no faults.")
        return
    _check_files(_opened(open_home(settings)))


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.pass_obj
def export(settings: Settings, folder: Path) -> None:
    """Write the whole collection as a folder of open files. It holds closed material too: guard it."""
    from archive.exchange.writing import write_folder

    write_folder(_opened(open_home(settings)), folder)
    click.echo(f"The collection stands in {folder}, what is closed included. Guard it as you guard the home.")


@main.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.pass_obj
def backup(settings: Settings, file: Path) -> None:
    """Write one FILE from which the home can be restored."""
    from archive.store import backups

    count = backups.backup(_opened(open_home(settings)), file)
    click.echo(f"{file} holds {count} files, with what is closed: guard it as you guard the home.")


@main.command()
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.pass_obj
def restore(settings: Settings, file: Path) -> None:
    """Make a home out of a backup FILE."""
    from archive.store import backups

    count = backups.restore(settings, file)
    click.echo(f"{settings.home} holds {count} files again. Make its search index with: lemel reindex")


@main.group()
def account() -> None:
    """Sign-in accounts."""


@account.command("add")
@click.argument("name")
@click.option("--role", type=click.Choice(["guide", "reader", "keeper"]), required=True)
@click.option("--password", prompt=True, hide_input=True, confirmation_prompt=True)
@click.pass_obj
def account_add(settings: Settings, name: str, role: str, password: str) -> None:
    """Add an account called NAME."""
    with _opened(open_home(settings)).changing("shell") as session:
        add_account(session, name=name, role=role, password=password)
    click.echo(f"{name} may sign in as {role}.")


@main.command()
@click.argument("words")
@click.option("--purpose", type=click.Choice([str(purpose) for purpose in AGREED]), default="research")
@click.option("--limit", default=20, show_default=True, type=click.IntRange(1, 1000))
@click.option("--json", "as_json", is_flag=True, help="Print the hits as JSON.")
@click.pass_obj
def find(settings: Settings, words: str, purpose: str, limit: int, as_json: bool) -> None:
    """Search interviews and records for WORDS, as far as the purpose allows."""
    from archive.search.asking import find as ask
    from archive.search.gateway import SearchIndex

    viewer = Viewer(Role.KEEPER, Purpose(purpose), date.today())
    page = ask(_opened(open_home(settings)), SearchIndex(settings.index), viewer, words, limit=limit)
    if as_json:
        click.echo(json.dumps(page.as_answer(), ensure_ascii=False, indent=2))
        return
    for hit in page.hits:
        click.echo("  ".join(part for part in (_place_of(hit.start), hit.speaker or hit.kind, hit.title) if part))
        click.echo(f"    {'(draft) ' if hit.draft else ''}{hit.snippet}")
    click.echo(f"{page.total} found.")
    if page.did_you_mean:
        click.echo(f"Did you mean: {page.did_you_mean}")


@main.command()
@click.argument("name", required=False)
@click.argument("given", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--list", "as_list", is_flag=True, help="List every reckoner.")
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
def reckon(name: str | None, given: tuple[str, ...], as_list: bool, as_json: bool) -> None:
    """Work out a sum of the trade. With a NAME alone, tell what it asks; with KEY=VALUE, the answer and the sum."""
    from archive.reckoners import registry, telling
    from archive.reckoners.asking import each_once, pairs_written

    if as_list or name is None:
        every = list(registry.RECKONERS.values())
        rows = [f"{one.name:<28} {one.title}" for one in every]
        _print(rows, [telling.reckoner_data(one) for one in every], as_json)
    elif not given:
        asked = registry.reckoner_named(name)
        _print(telling.reckoner_lines(asked), telling.reckoner_data(asked), as_json)
    else:
        registry.reckoner_named(name)
        result = registry.reckon(name, each_once(pairs_written(given)))
        _print(telling.lines(result), telling.as_data(result), as_json)


main.add_command(plan_tour)
main.add_command(ingest)
main.add_command(align)
main.add_command(draft)


def _opened(store: Store) -> Store:
    """The store, let go of when the command ends, however it ends."""
    click.get_current_context().call_on_close(store.close)
    return store


def _say(words: str) -> None:
    click.echo(words)
    sys.stdout.flush()


def _print(lines: list[str], data: Any, as_json: bool) -> None:
    click.echo(json.dumps(data, ensure_ascii=False, indent=2) if as_json else "\n".join(lines))


def _place_of(start_ms: int | None) -> str:
    return "" if start_ms is None else format_clock(start_ms)


def _fresh_demo(settings: Settings) -> Store:
    """The demo's home, emptied and loaded anew; a home that is not the demo's is never emptied."""
    mark = settings.home / DEMO_MARK
    if settings.home.exists() and any(settings.home.iterdir()) and not mark.exists():
        raise Conflict(f"{settings.home} is not a demo home, so it is left alone. Choose another folder with --home.")
    if settings.home.exists():
        shutil.rmtree(settings.home)
    settings.home.mkdir(parents=True, mode=0o700)
    mark.touch()
    store = _opened(make_home(settings))
    _load(store, shared_folder("demo-collection"))
    with store.changing("demo") as session:
        for name, password in DEMO_SIGN_INS:
            add_account(session, name=name, role=name, password=password)
    return store


def _load(store: Store, folder: Path, *, replace: bool = False) -> None:
    from archive.exchange.loading import load as load_folder
    from archive.search.gateway import SearchIndex

    with Progress(console=_console, transient=True) as progress:
        report = load_folder(store, folder, replace=replace, on_progress=_follow(progress))
        SearchIndex(store.settings.index).rebuild(store)
    counts = ", ".join(f"{count} {kind}" for kind, count in report.counts.items() if count)
    click.echo(f"Loaded {counts} in {report.seconds:.1f} s.")
    for note in report.notes:
        click.echo(f"Note: {note}")


def _check_files(store: Store) -> None:
    from archive.store.fixity import check_files

    with Progress(console=_console, transient=True) as progress:
        follow = _follow(progress)
        unsound = check_files(store, lambda done, total: follow("Reading files", done, total))
    for finding in unsound:
        click.echo(f"{finding.sha256} is {finding.state}. Restore it from a backup.")
    if unsound:
        sys.exit(1)
    click.echo("Every file is as it was taken in.")


def _follow(progress: Progress) -> Callable[[str, int, int], None]:
    """A bar for each stage of the work, by name."""
    task = functools.cache(lambda stage: progress.add_task(stage, total=None))
    return lambda stage, done, total: progress.update(task(stage), completed=done, total=total)
