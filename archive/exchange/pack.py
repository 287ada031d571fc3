"""A tour to carry: one ZIP that opens from disk, the same bytes for the same tour. Pure.

A page opened from disk may not load modules, so the scripts are written one after the other into one plain script, each
in a scope of its own.
"""

from __future__ import annotations

import io
import posixpath
import re
from collections.abc import Iterable, Mapping
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

# ZIP knows no time before this one; a pack made again tomorrow differs by what it says, not by its clock.
_MOMENT = (1980, 1, 1, 0, 0, 0)
_READABLE = 0o644 << 16
_PACKED_ALREADY = (".mp3", ".webm", ".webp", ".png", ".jpg")
_IMPORT = re.compile(r"^import\s*(?:\{(?P<names>[^}]*)\}\s*from\s*)?\"(?P<path>\.[^\"]+)\";\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?(?:function|const|class) (?P<name>\w+))", re.MULTILINE)


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
    """One script that does what a module does with all it imports; `modules` are texts by path.

    Ours are written so that this is enough: names are imported as they are exported, and no module needs itself.
    """
    ordered: dict[str, str] = {}
    _gather(first, modules, ordered)
    scopes = {path: f"part{number}" for number, path in enumerate(ordered)}
    bodies = [_scoped(path, text, scopes) for path, text in ordered.items()]
    return '"use strict";\n(() => {\n' + "".join(bodies) + "})();\n"


def one_style(parts: Iterable[str]) -> str:
    """Style sheets in one."""
    return "\n".join(parts)


def _gather(path: str, modules: Mapping[str, str], ordered: dict[str, str]) -> None:
    """What a module needs before the module itself, each once."""
    if path in ordered:
        return
    for found in _IMPORT.finditer(modules[path]):
        _gather(_beside(path, found["path"]), modules, ordered)
    ordered[path] = modules[path]


def _scoped(path: str, text: str, scopes: Mapping[str, str]) -> str:
    """A module as a function that gives what it exports."""

    def taken(found: re.Match[str]) -> str:
        names = (found["names"] or "").strip().rstrip(",")
        return f"const {{ {names} }} = {scopes[_beside(path, found['path'])]};\n" if names else ""

    exported = ", ".join(found["name"] for found in _EXPORT.finditer(text))
    body = _EXPORT.sub("", _IMPORT.sub(taken, text))
    return f"const {scopes[path]} = (() => {{\n{body}return {{ {exported} }};\n}})();\n"


def _beside(path: str, other: str) -> str:
    """The path that a module at one path names relative to itself."""
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), other))
