"""The files of a collection folder: which names are safe, which files may be opened, and their text."""

from __future__ import annotations

import re
import stat
from dataclasses import dataclass, field
from pathlib import Path

from archive.exchange.faults import FaultList, Place, shown

MOST_TEXT = 20_000_000
LONGEST_LINE = 1_000_000
LONGEST_NAME = 120
NAME_ALLOWED = (
    "Write the plain name of a file in the same folder, up to 120 letters, "
    "not starting with a dot, and without / \\ : * ? < > | or a double quote"
)
_NAME = re.compile(r"[^./\\:*?\"<>|\x00-\x1f\x7f\s][^/\\:*?\"<>|\x00-\x1f\x7f]*(?<![. ])")
_RESERVED = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", re.IGNORECASE)


def is_file_name(text: str) -> bool:
    """Whether the text is a plain file name that every system can keep."""
    return len(text) <= LONGEST_NAME and bool(_NAME.fullmatch(text)) and not _RESERVED.fullmatch(text)


@dataclass
class FolderFiles:
    """One collection folder being read; everything opened is inside it."""

    root: Path
    faults: FaultList = field(default_factory=FaultList)
    texts: dict[str, str] = field(default_factory=dict)

    def has(self, name: str) -> bool:
        """Whether anything stands under that name, even a link that leads nowhere."""
        path = self.root / name
        return path.is_symlink() or path.exists()

    def names(self, subfolder: str, suffix: str = "") -> list[str]:
        """The names in a subfolder, sorted; none where there is no subfolder. Names that start with a dot are left."""
        path = self._inside(subfolder, Place(subfolder)) if self.has(subfolder) else None
        if path is None:
            return []
        if not path.is_dir():
            self.faults.add(Place(subfolder), "it is a file", "It must be a folder")
            return []
        return sorted(p.name for p in path.iterdir() if p.name.endswith(suffix) and not p.name.startswith("."))

    def file(self, name: str, place: Place) -> Path | None:
        """The path of a file that may be opened, or a fault at `place` and None."""
        if not self.has(name):
            self.faults.add(place, f"the file {shown(name)} is not in the folder", "Put it there, or name another")
            return None
        path = self._inside(name, place)
        if path is None:
            return None
        mode = path.stat().st_mode
        if not stat.S_ISREG(mode):
            self.faults.add(place, f"{shown(name)} is not a file", "It must be an ordinary file, no folder or device")
            return None
        return path

    def text(self, name: str, place: Place | None = None) -> str | None:
        """The text of a file, its line ends made LF; None, with faults, for what is not good UTF-8 text."""
        path = self.file(name, place or Place(name))
        if path is None:
            return None
        if path.stat().st_size > MOST_TEXT:
            self.faults.add(Place(name), "it is larger than 20 MB", "A text file may have up to 20 MB; split it")
            return None
        text = self._decoded(path.read_bytes(), name)
        if text is not None:
            self.texts[name] = text
        return text

    def _inside(self, name: str, place: Place) -> Path | None:
        try:
            path = (self.root / name).resolve(strict=True)
        except (OSError, RuntimeError, ValueError):
            self.faults.add(place, f"{shown(name)} is a link that leads nowhere", "Put the file itself there")
            return None
        if not path.is_relative_to(self.root.resolve()):
            self.faults.add(place, f"{shown(name)} leads out of the folder", "Every file must lie inside the folder")
            return None
        return path

    def _decoded(self, content: bytes, name: str) -> str | None:
        try:
            text = content.decode("utf-8")
        except UnicodeDecodeError as problem:
            before = content[: problem.start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
            line = before.count(b"\n") + 1
            found = f"a byte ({content[problem.start]:#04x}) that is not UTF-8"
            self.faults.add(Place(name, line), found, "Save the file as UTF-8 text")
            return None
        text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        return text if self._has_good_lines(text, name) else None

    def _has_good_lines(self, text: str, name: str) -> bool:
        nul = text.find("\0")
        if nul >= 0:
            line = text.count("\n", 0, nul) + 1
            self.faults.add(Place(name, line), "a zero byte", "Text holds none; save the file as plain UTF-8 text")
        for number, line_text in enumerate(text.split("\n"), 1):
            if len(line_text) > LONGEST_LINE:
                found = f"a line of {len(line_text)} letters"
                self.faults.add(Place(name, number), found, "A line may have up to 1,000,000 letters; break it")
                return False
        return nul < 0
