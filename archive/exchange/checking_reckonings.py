"""Each reckoning that a folder names is worked out as it is read, and a figure that does not follow is told."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from archive.errors import NotFound, OutOfRange, Unacceptable
from archive.exchange.faults import shown
from archive.exchange.toml_files import TomlTable
from archive.reckoners.following import answer_told, strays
from archive.reckoners.registry import RECKONERS, reckon
from archive.reckoners.shape import Result


def check_reckoning(row: TomlTable, key: str, name: str, inputs: Mapping[str, Any], figure: str = "") -> None:
    """Tell a reckoner that is not there (it is named under `key`), inputs it cannot take, a figure that strays."""
    refused = not inputs and bool(row.values.get("inputs"))
    result = None if refused or not name else _worked(row, key, name, inputs)
    lost = strays(figure, result) if result and figure else ()
    if result and lost:
        found = f"the figure {shown(figure)} does not follow: {', '.join(map(shown, lost))} is not in the answer"
        row.fault("figure", found, f"The reckoning gives {answer_told(result)}")


def _worked(row: TomlTable, key: str, name: str, inputs: Mapping[str, Any]) -> Result | None:
    odd = [
        field for field, value in inputs.items() if isinstance(value, bool) or not isinstance(value, str | int | float)
    ]
    for field in odd:
        row.fault("inputs", f"{shown(field)} is neither words nor a number", 'Write it like fall = "1.7 m"')
    try:
        return None if odd else reckon(name, inputs)
    except NotFound:
        near = get_close_matches(name, RECKONERS, 1)
        hint = f"; the nearest is {shown(near[0])}" if near else ""
        row.fault(key, f"there is no reckoner {shown(name)}", f"`lemel reckon --list` names them all{hint}")
    except Unacceptable as problem:
        for fault in problem.faults:
            row.fault("inputs", f"{shown(fault.where)} in {name}: {fault.found}", fault.allowed)
    except OutOfRange as problem:
        row.fault("inputs", f"{name} has no answer for these inputs", str(problem))
    return None
