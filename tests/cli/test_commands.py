"""The command `lemel`: each command refuses what it cannot do in words and with status 1, and does what it says."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from sqlalchemy import func, select

import archive.cli
from archive.accounts.queries import account_named
from archive.exchange.loading import load
from archive.interviews.model import Interview
from archive.settings import Settings
from archive.store.homes import make_home, open_home
from archive.store.session import Store
from tests.conftest import app_of, sign_in, with_accounts
from tests.small_collection import swap, write_small_collection

Lemel = Callable[..., Result]


@pytest.fixture
def lemel(tmp_path: Path) -> Lemel:
    """The command, on a home of this test's own."""
    home = tmp_path / "home"
    return lambda *words, **more: CliRunner().invoke(archive.cli.main, ["--home", str(home), *map(str, words)], **more)


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """The small collection as a folder."""
    return write_small_collection(tmp_path / "small")


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A home with the small collection, loaded by the command, for tests that only read."""
    folder = tmp_path_factory.mktemp("kept")
    source = write_small_collection(folder / "small")
    said = CliRunner().invoke(archive.cli.main, ["--home", str(folder / "home"), "load", str(source)])
    assert said.exit_code == 0, said.output
    store = open_home(Settings(folder / "home"))
    yield with_accounts(store)
    store.close()


def on(store: Store, *words: object) -> Result:
    """What the command says of a home."""
    return CliRunner().invoke(archive.cli.main, ["--home", str(store.settings.home), *map(str, words)])


def serving(store: Store, port: int) -> list[str]:
    """The command that serves a home, as a process of its own."""
    lemel = [sys.executable, "-c", "from archive.cli import main; main()"]
    return [*lemel, "--home", str(store.settings.home), "serve", "--port", str(port)]


def interviews_in(home: Path) -> int:
    """How many interviews a home keeps."""
    store = open_home(Settings(home))
    with store.session() as session:
        count = session.scalar(select(func.count()).select_from(Interview)) or 0
    store.close()
    return count


def texts_of(folder: Path) -> dict[str, bytes]:
    """Every file of a folder by its path in it."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize(
    "words",
    ["reindex", "check", "export out", "backup out.zip", "serve", "find brass",
     "account add ann --role guide --password xxxxxxxxxxxx"],
)  # fmt: skip
def test_without_a_home_nothing_is_done(lemel: Lemel, words: str) -> None:
    """Each command that needs a home says how to make one, and makes none."""
    said = lemel(*words.split())
    assert said.exit_code == 1
    assert "There is no home in" in said.stderr
    assert "init" in said.stderr
    assert said.exception is None or isinstance(said.exception, SystemExit)


@pytest.mark.parametrize(
    "words",
    ["fly", "load", "find", "serve --port 99999", "restore no-such-file", "find brass --purpose gossip",
     "find brass --limit 0", "account add ann --role owner --password xxxxxxxxxxxx"],
)  # fmt: skip
def test_what_cannot_be_meant_is_told_with_the_usage(lemel: Lemel, words: str) -> None:
    """Unknown commands, missing words and impossible values have status 2."""
    said = lemel(*words.split())
    assert said.exit_code == 2
    assert "Usage:" in said.stderr


def test_a_folder_that_is_no_demo_home_is_left_alone(lemel: Lemel, tmp_path: Path) -> None:
    """The demo is loaded fresh, so it never empties what it did not make."""
    precious = tmp_path / "home" / "thesis.txt"
    precious.parent.mkdir()
    precious.write_text("years of work", "utf-8")
    said = lemel("demo", "--no-serve")
    assert said.exit_code == 1
    assert "is not a demo home" in said.stderr
    assert list(precious.parent.iterdir()) == [precious]


def test_a_museums_own_home_is_no_demo_home(kept: Store) -> None:
    """Not even one of Lemel's own."""
    assert on(kept, "demo", "--no-serve").exit_code == 1
    assert interviews_in(kept.settings.home) == 2


def test_the_demo_is_loaded_fresh_each_time(
    lemel: Lemel, small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A second time empties the demo's own home; the sign-ins that are printed open it."""
    monkeypatch.setattr(archive.cli, "shared_folder", lambda _name: small)
    assert lemel("demo", "--no-serve").exit_code == 0
    (tmp_path / "home" / "crumbs.txt").touch()
    said = lemel("demo", "--no-serve")
    assert said.exit_code == 0
    assert not (tmp_path / "home" / "crumbs.txt").exists()
    for name, password in archive.cli.DEMO_SIGN_INS:
        assert f"{name:<7} {password}" in said.output
    store = open_home(Settings(tmp_path / "home"))
    monkeypatch.setattr("tests.conftest.PASSWORD", archive.cli.DEMO_SIGN_INS[0][1])
    assert sign_in(app_of(store).test_client(), "guide").get("/desk/").status_code == 200
    store.close()


def test_a_folder_with_faults_is_not_stored_and_all_are_told(lemel: Lemel, tmp_path: Path) -> None:
    """Every fault with its file, status 1, and no record kept."""
    faulty = write_small_collection(
        tmp_path / "faulty",
        **{"objects.csv": swap("SM.1,", "SM 1,"), "tours/t-short.toml": swap("minutes = 15", 'minutes = "long"')},
    )
    said = lemel("load", faulty)
    assert said.exit_code == 1
    assert "nothing was stored" in said.stderr
    assert "objects.csv" in said.stderr
    assert "t-short.toml" in said.stderr
    assert "Traceback" not in said.output
    assert interviews_in(tmp_path / "home") == 0


def test_a_folder_that_is_not_there_is_told(lemel: Lemel, tmp_path: Path) -> None:
    """With its name."""
    said = lemel("load", tmp_path / "nowhere")
    assert said.exit_code == 1
    assert "nowhere" in said.stderr


def test_a_second_load_is_refused_unless_it_replaces(lemel: Lemel, small: Path, tmp_path: Path) -> None:
    """Nothing is doubled; with --replace the home holds the new folder, and a backup of the old."""
    assert "2 interviews" in lemel("load", small).output
    said = lemel("load", small)
    assert said.exit_code == 1
    assert "--replace" in said.stderr
    assert interviews_in(tmp_path / "home") == 2
    assert lemel("load", small, "--replace").exit_code == 0
    assert interviews_in(tmp_path / "home") == 2
    assert list((tmp_path / "home" / "backups").iterdir())


def test_an_empty_home_is_made_and_left_as_it_is(lemel: Lemel, tmp_path: Path) -> None:
    """A second `init` changes nothing."""
    assert "lemel load FOLDER" in lemel("init").output
    assert lemel("init").exit_code == 0
    assert interviews_in(tmp_path / "home") == 0


def test_an_exported_folder_loads_to_the_same_export(kept: Store, lemel: Lemel, tmp_path: Path) -> None:
    """export, load, export again: the two folders are the same, byte for byte."""
    first, second = tmp_path / "first", tmp_path / "second"
    assert "Guard it" in on(kept, "export", first).output
    assert lemel("load", first).exit_code == 0
    assert lemel("export", second).exit_code == 0
    assert texts_of(first) == texts_of(second)


def test_an_export_never_writes_over_a_folder(kept: Store, tmp_path: Path) -> None:
    """A folder with anything in it is refused."""
    (tmp_path / "mine.txt").touch()
    said = on(kept, "export", tmp_path)
    assert said.exit_code == 1
    assert "is there already" in said.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_a_backup_is_restored_whole(kept: Store, lemel: Lemel, tmp_path: Path) -> None:
    """The restored home has the same files, records and, once indexed, the same hits."""
    file = tmp_path / "kept.backup"
    assert on(kept, "backup", file).exit_code == 0
    assert lemel("restore", file).exit_code == 0
    assert lemel("check").output.endswith("Every file is as it was taken in.\n")
    assert lemel("reindex").exit_code == 0
    asked = ("find", "press", "--json")
    assert json.loads(lemel(*asked).stdout)["hits"] == json.loads(on(kept, *asked).stdout)["hits"]


def test_backups_and_homes_are_never_written_over(kept: Store, lemel: Lemel, tmp_path: Path) -> None:
    """Neither a file that is there, nor a home with something in it."""
    file = tmp_path / "kept.backup"
    assert on(kept, "backup", file).exit_code == 0
    assert "never written over" in on(kept, "backup", file).stderr
    said = on(kept, "restore", file)
    assert said.exit_code == 1
    assert "is not empty" in said.stderr


def test_what_is_no_backup_is_refused(lemel: Lemel, tmp_path: Path) -> None:
    """And no home is made of it."""
    file = tmp_path / "letter.txt"
    file.write_text("Dear keeper", "utf-8")
    said = lemel("restore", file)
    assert said.exit_code == 1
    assert "letter.txt" in said.stderr
    assert not (tmp_path / "home" / "lemel.sqlite").exists()


def test_a_file_that_changed_is_found(lemel: Lemel, small: Path, tmp_path: Path) -> None:
    """`check` names it, says what to do, and has status 1; so it can stand in a nightly job."""
    assert lemel("load", small).exit_code == 0
    assert lemel("check").exit_code == 0
    victim = next(path for path in (tmp_path / "home" / "files").rglob("*") if path.is_file())
    victim.chmod(0o600)
    victim.write_bytes(b"rot")
    said = lemel("check")
    assert said.exit_code == 1
    assert "is changed. Restore it from a backup." in said.output


def test_a_folder_is_checked_without_a_home(lemel: Lemel, small: Path, tmp_path: Path) -> None:
    """Its faults are told, and nothing is made."""
    assert lemel("check", small).output.endswith("has no faults.\n")
    (small / "collection.toml").write_text('ref = "x"\n', "utf-8")
    said = lemel("check", small)
    assert said.exit_code == 1
    assert "collection.toml" in said.stderr
    assert not (tmp_path / "home").exists()


@pytest.mark.parametrize(
    ("name", "password", "words"), [("ann", "short", "too short"), ("keeper", "x" * 12, "already")]
)
def test_an_account_that_cannot_be_is_refused(kept: Store, name: str, password: str, words: str) -> None:
    """A short password, or a name that is taken."""
    said = on(kept, "account", "add", name, "--role", "guide", "--password", password)
    assert said.exit_code == 1
    assert words in said.stderr


def test_an_account_is_added_with_its_password_asked_twice(lemel: Lemel, tmp_path: Path) -> None:
    """The password is asked for when it is not given, and never shown."""
    assert lemel("init").exit_code == 0
    said = lemel("account", "add", "ann", "--role", "reader", input="a quiet password\na quiet password\n")
    assert said.output.endswith("ann may sign in as reader.\n")
    assert "quiet" not in said.output
    store = open_home(Settings(tmp_path / "home"))
    with store.session() as session:
        kept_account = account_named(session, "ann")
        assert kept_account
        assert kept_account.role == "reader"
        assert "quiet" not in kept_account.password_hash
    store.close()


@pytest.mark.parametrize("purpose", ["research", "kiosk", "web"])
@pytest.mark.parametrize("words", ["press", '"set their own tools"', "pres*", "zzzz"])
def test_the_shell_finds_what_the_web_finds(kept: Store, words: str, purpose: str) -> None:
    """`find --json` has the very hits of /api/v1/search for a keeper, in the same order."""
    keeper = sign_in(app_of(kept).test_client(), "keeper")
    answer = keeper.get("/api/v1/search", query_string={"q": words, "purpose": purpose}).get_json()
    said = json.loads(on(kept, "find", words, "--purpose", purpose, "--json").stdout)
    assert (said["total"], said["hits"]) == (answer["total"], answer["hits"])


def test_what_is_found_is_told_in_words(kept: Store) -> None:
    """Each hit with time and speaker, then how many; for the web, what is closed to it is not found."""
    told = on(kept, "find", "tools").output
    assert "Ada Birch" in told
    assert " found." in told
    assert "Ada Birch" not in on(kept, "find", "tools", "--purpose", "web").output


def test_a_port_in_use_is_told(kept: Store) -> None:
    """With another to try."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        said = subprocess.run(serving(kept, port), capture_output=True, text=True, timeout=60)
    assert said.returncode == 1
    assert f"Try --port {port + 1}" in said.stderr
    assert "Traceback" not in said.stderr


@pytest.mark.skipif(os.name == "nt", reason="a signal to stop is sent as POSIX systems do")
def test_a_home_is_served_until_it_is_stopped(kept: Store) -> None:
    """The address is printed once the app answers there."""
    with subprocess.Popen(serving(kept, 0), stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout
            told = next(line for line in process.stdout if line.startswith("Open http"))
            with urllib.request.urlopen(f"{told.split()[1]}healthz", timeout=20) as answer:
                assert json.load(answer)["ok"] is True
        finally:
            process.send_signal(signal.SIGINT)


def test_the_index_is_made_anew(lemel: Lemel, small: Path, tmp_path: Path) -> None:
    """A home whose index is gone finds nothing until it is indexed, then everything."""
    store = make_home(Settings(tmp_path / "home"))
    load(store, small)
    store.close()
    said = lemel("reindex")
    assert said.exit_code == 0
    assert "entries" in said.output
    assert "Ada Birch" in lemel("find", "tools").output
