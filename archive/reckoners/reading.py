"""Reads all fields of a reckoner and tells every fault together, each under its field."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from archive.errors import Fault, Unacceptable
from archive.reckoners.measures import plain
from archive.reckoners.quantities import Amount, read_amount
from archive.reckoners.shape import Input, Kind, Reckoner, Taken
from archive.reckoners.unread import NotRead

Written = str | int | float
_LONGEST_TEXT = 2000


@dataclass
class Fields:
    """What was given, read: amounts and words by key, how each was taken, and what lies outside a sound range."""

    amounts: dict[str, Amount] = field(default_factory=dict)
    words: dict[str, str] = field(default_factory=dict)
    taken: list[Taken] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)


def read_fields(reckoner: Reckoner, given: Mapping[str, Written]) -> Fields:
    """Every field read; raises Unacceptable with all faults."""
    written, faults = _by_input(reckoner, given)
    fields = Fields()
    for item in reckoner.inputs:
        try:
            _read(item, written.get(item.key, ""), fields)
        except NotRead as error:
            faults.append(Fault(item.key, 0, error.found, error.allowed))
    faults += _too_many_about(reckoner, fields)
    if faults:
        raise Unacceptable(faults, f"The reckoning {reckoner.name}", left="nothing was reckoned")
    return fields


def _too_many_about(reckoner: Reckoner, fields: Fields) -> list[Fault]:
    """A fault for each field that is one range too many."""
    about = [key for key, amount in fields.amounts.items() if not amount.exact]
    allowed = f"This sum takes {reckoner.most_about} ranges at once; write one figure here"
    return [Fault(key, 0, "It is a range, and so are others", allowed) for key in about[reckoner.most_about :]]


def _by_input(reckoner: Reckoner, given: Mapping[str, Written]) -> tuple[dict[str, str], list[Fault]]:
    """What was written, by the key of the input; `before_mm=1.43` is taken as `before=1.43 mm`."""
    names = {name: (item.key, unit) for item in reckoner.inputs for name, unit in _names_of(item)}
    written: dict[str, str] = {}
    faults = []
    for name, value in given.items():
        key, unit = names.get(name, ("", ""))
        if not key:
            allowed = f"The fields are {', '.join(item.key for item in reckoner.inputs)}"
            faults.append(Fault(name, 0, "There is no such field", allowed))
        elif key in written:
            faults.append(Fault(key, 0, "It was given twice", "Give it once"))
        else:
            written[key] = f"{value} {unit}".strip() if str(value).strip() else ""
    return written, faults


def _names_of(item: Input) -> list[tuple[str, str]]:
    """The key, and the key with each unit joined on: ("shear_n_per_mm2", "N/mm²")."""
    joined = [(f"{item.key}_{_slug(unit)}", unit) for unit in item.units]
    return [(item.key, ""), *joined]


def _slug(unit: str) -> str:
    return plain(unit).replace("%", "percent").replace("/", "_per_").replace("°", "").replace(" ", "_")


def _read(item: Input, written: str, fields: Fields) -> None:
    """Reads one field into `fields`."""
    asked = written.strip() or item.default or ""
    if not asked:
        if item.optional:
            return
        raise NotRead("It is empty", f"{item.help.rstrip('.')}. {_wanted(item)}")
    if item.kind is Kind.NUMBER:
        read_as = _read_number(item, asked, fields)
    else:
        fields.words[item.key] = _text(asked) if item.kind is Kind.TEXT else _chosen(item, asked)
        read_as = item.choices.get(fields.words[item.key], asked)
    fields.taken.append(Taken(item.key, item.title, asked, read_as))


def _wanted(item: Input) -> str:
    if item.kind is Kind.CHOICE:
        return f"Choose one of {', '.join(item.choices)}"
    if item.kind is Kind.TEXT:
        return "Write it in words"
    return f"Give a number from {item.low:,.10g} to {item.high:,.10g} {item.unit}"


def _read_number(item: Input, asked: str, fields: Fields) -> str:
    """Reads a number, refuses it beyond its range, warns outside its sound range, and tells how it was taken."""
    amount = read_amount(asked, item.unit)
    for value in (amount.low, amount.high):
        if not item.low <= value <= item.high:
            raise NotRead(f"“{asked}” is {value:g} {item.unit}", _wanted(item))
    if item.whole and not all(float(v).is_integer() for v in (amount.low, amount.high)):
        raise NotRead(f"“{asked}” is not a whole number", _wanted(item))
    fields.amounts[item.key] = amount if not item.whole else Amount(amount.low, round(amount.point), amount.high)
    if item.sound and not item.sound[0] <= amount.low <= amount.high <= item.sound[1]:
        fields.warnings.append(
            f"{item.title}: {asked} lies outside {item.sound[0]:g} to {item.sound[1]:g} {item.unit}, "
            "where the method is known to hold. Take the answer as a rough guide."
        )
    return _as_told(amount, item.unit)


def _as_told(amount: Amount, unit: str) -> str:
    if amount.exact:
        return f"{amount.point:.6g} {unit}"
    return f"{amount.low:.6g} to {amount.high:.6g} {unit}"


def _text(asked: str) -> str:
    """Words or a list, of no great length."""
    if len(asked) > _LONGEST_TEXT:
        raise NotRead(f"It has {len(asked):,} characters", f"Write up to {_LONGEST_TEXT}")
    return asked


def _chosen(item: Input, asked: str) -> str:
    """The choice meant: by its key or by its meaning, without regard to case."""
    word = plain(asked)
    for key, meaning in item.choices.items():
        if word in (plain(key), plain(meaning)):
            return key
    known = "; ".join(key if key == meaning else f"{key} ({meaning})" for key, meaning in item.choices.items())
    raise NotRead(f"“{asked[:40]}” is not one of the choices", f"Choose one of: {known}")
