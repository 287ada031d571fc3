"""Where a home lies and what stands in it; where templates, static files and the demo are found."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

import platformdirs

PACKAGE = Path(__file__).resolve().parent
DATABASE = "lemel.sqlite"


def shared_folder(name: str) -> Path:
    """The folder `templates`, `static` or `demo-collection`: inside a built wheel, else beside the package."""
    packed = PACKAGE / "share" / name
    return packed if packed.is_dir() else PACKAGE.parent / name


def default_home() -> Path:
    """`LEMEL_HOME`, else the platform's folder for a user's data."""
    given = os.environ.get("LEMEL_HOME")
    return Path(given) if given else platformdirs.user_data_path("lemel", appauthor=False)


def demo_home() -> Path:
    """Where `lemel demo` keeps its home: never the museum's own."""
    return platformdirs.user_cache_path("lemel", appauthor=False) / "demo"


@dataclass(frozen=True)
class Settings:
    """One museum's home folder and the database that belongs to it."""

    home: Path
    database_url: str = ""
    testing: bool = False
    # Within how many days every kept file is read again and compared with its checksum, as it was given.
    fixity_days: str = ""
    # The folder of a speech model elsewhere than in the home.
    speech_folder: str = ""

    @classmethod
    def from_environment(cls, home: Path | None = None) -> Settings:
        """The settings of this process: `--home` if given, else the environment."""
        named = ("LEMEL_DATABASE", "LEMEL_FIXITY_DAYS", "LEMEL_SPEECH_MODEL")
        database, days, speech = (os.environ.get(name, "") for name in named)
        return cls((home or default_home()).absolute(), database, fixity_days=days, speech_folder=speech)

    @property
    def database(self) -> str:
        """The SQLAlchemy URL of the database: the home's own SQLite file unless another is named."""
        return self.database_url or f"sqlite:///{(self.home / DATABASE).as_posix()}"

    @property
    def files(self) -> Path:
        """The folder of kept files, named by checksum."""
        return self.home / "files"

    @property
    def index(self) -> Path:
        """The folder of the search index; it can be thrown away and made again."""
        return self.home / "index"

    @property
    def backups(self) -> Path:
        """Where a load that replaces records first keeps the old ones."""
        return self.home / "backups"

    @property
    def secret_file(self) -> Path:
        """The key that signs session cookies."""
        return self.home / "secret.key"

    @property
    def jobs(self) -> Path:
        """The queue of work in the background."""
        return self.home / "jobs.sqlite"

    @property
    def working(self) -> Path:
        """A file that is locked by the one process that does the work in the background."""
        return self.home / "working.sqlite"

    @property
    def incoming(self) -> Path:
        """Where files lie while they arrive."""
        return self.home / "incoming"

    @property
    def unreadable(self) -> Path:
        """Where files are kept of which nothing could be read."""
        return self.incoming / "unreadable"

    @property
    def inbox(self) -> Path:
        """A folder that is watched: a recording laid in it is taken in."""
        return self.home / "inbox"

    @property
    def speech_model(self) -> Path:
        """The folder of the speech model that makes drafts: `LEMEL_SPEECH_MODEL`, else `speech-model` in the home."""
        return Path(self.speech_folder).absolute() if self.speech_folder else self.home / "speech-model"
