"""A tour to carry: one ZIP that opens from disk, the same bytes for the same tour. Pure.

A page opened from disk may not load modules, so the scripts are written one after the other into one plain script.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Mapping
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

# ZIP knows no time before this one; a pack made again tomorrow differs by what it says, not by its clock.
_MOMENT = (1980, 1, 1, 0, 0, 0)
_READABLE = 0o644 << 16
_PACKED_ALREADY = (".mp3", ".webm", ".webp", ".png", ".jpg")
_IMPORT = re.compile(r"^import\s*(?:\{[^}]*\}\s*from\s*)?\"(?P<path>\./[^\"]+)\";\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?function |const |class )", re.MULTILINE)


def zip_of(files: Mapping[str, bytes]) -> bytes:
    """A ZIP of files by their names, in the order of their names."""
    held = io.BytesIO()
    with ZipFile(held, "w") as packed:
        for name in sorted(files):
            entry = ZipInfo(name, _MOMENT)
            entry.external_attr = _READABLE
            entry.compress_type = ZIP_STORED if name.endswith(_PACKED_ALREADY) else ZIP_DEFLATED
            packed.writestr(entry, files[name])
    return held.getvalue()


def plain_script(first: str, modules: Mapping[str, str]) -> str:
    """One script that does what a module does with all it imports; `modules` are texts by file name.

    Ours are written so that this is enough: names are imported as they are exported, and no name is used twice.
    """
    ordered: dict[str, str] = {}
    _gather(first, modules, ordered)
    bodies = (_EXPORT.sub("", _IMPORT.sub("", text)) for text in ordered.values())
    return '"use strict";\n(() => {\n' + "\n".join(bodies) + "})();\n"


def one_style(parts: Iterable[str]) -> str:
    """Style sheets in one."""
    return "\n".join(parts)


def _gather(name: str, modules: Mapping[str, str], ordered: dict[str, str]) -> None:
    """What a module needs before the module itself, each once."""
    if name in ordered:
        return
    for found in _IMPORT.finditer(modules[name]):
        _gather(found["path"].removeprefix("./"), modules, ordered)
    ordered[name] = modules[name]
