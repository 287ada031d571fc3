"""Tells a reckoner or a result: as lines for a shell or a sheet, as plain data for JSON, and figures as text."""

from __future__ import annotations

from typing import Any

from archive.reckoners.money import pounds_shillings_pence
from archive.reckoners.shape import Input, Kind, Output, Reckoner, Result, Value
from archive.reckoners.sources import Source, source

STERLING = "£sd"
_OTHERS_TOLD = 3


def figure_told(value: Value) -> str:
    """The figure with its unit, and its range where there is one: "37.1 %", "300 to 330 J"."""
    if isinstance(value.value, str):
        # The ends of the range come first among the others.
        others = f" (elsewhere in the range: {'; '.join(value.others[:_OTHERS_TOLD])})" if value.others else ""
        return f"{value.value}{others}"
    point = _number_told(value.value, value.output)
    if value.low is None or value.high is None:
        return point
    low, high = _number_told(value.low, value.output), _number_told(value.high, value.output)
    if low == high:
        return point
    return f"{_without_unit(low, value.output)} to {high}, about {point}"


def _number_told(number: float, output: Output) -> str:
    if output.unit == STERLING:
        return pounds_shillings_pence(number)
    if output.unit == "£":
        return f"£{number:,.{output.decimals}f}"
    told = f"{number:,.{output.decimals}f}"
    tidy = told.replace("-", "") if float(told.replace(",", "")) == 0 else told
    return f"{tidy.replace('-', '−')} {output.unit}".strip()


def _without_unit(told: str, output: Output) -> str:
    return told.removesuffix(f" {output.unit}") if output.unit else told


def lines(result: Result) -> list[str]:
    """The result as plain lines: what was given, the answer, the sum, what to heed, where it comes from."""
    reckoner = result.reckoner
    told = [reckoner.title, ""]
    told += [f"  {value.output.title}: {figure_told(value)}" for value in result.values]
    told += _block("Given", [_taken_told(taken.title, taken.written, taken.read_as) for taken in result.taken])
    told += _block("The sum", [reckoner.formula, *result.steps])
    told += _block("Take heed", list(result.warnings))
    told += _block("To picture it", [result.compare] if result.compare else [])
    told += _block("Ranges", [result.interval_note] if result.interval_note else [])
    told += _block("Good for", list(reckoner.good_for))
    told += _block("Sources", [str(one) for one in result.sources])
    return [*told, "", reckoner.caution]


def _taken_told(title: str, written: str, read_as: str) -> str:
    return f"{title}: {written}" if written == read_as else f"{title}: {written} ({read_as})"


def _block(title: str, rows: list[str]) -> list[str]:
    return ["", f"{title}:", *(f"  {row}" for row in rows)] if rows else []


def as_data(result: Result) -> dict[str, Any]:
    """The result as plain data, for JSON."""
    return {
        "reckoner": result.reckoner.name,
        "title": result.reckoner.title,
        "given": [{"key": t.key, "title": t.title, "written": t.written, "read_as": t.read_as} for t in result.taken],
        "values": {value.output.key: _value_data(value) for value in result.values},
        "formula": result.reckoner.formula,
        "steps": list(result.steps),
        "warnings": list(result.warnings),
        "good_for": list(result.reckoner.good_for),
        "compare": result.compare,
        "interval_note": result.interval_note,
        "sources": [_source_data(one) for one in result.sources],
        "caution": result.reckoner.caution,
    }


def _value_data(value: Value) -> dict[str, Any]:
    data: dict[str, Any] = {
        "title": value.output.title,
        "value": value.value,
        "unit": value.output.unit,
        "text": figure_told(value),
    }
    if value.low is not None:
        data |= {"low": value.low, "high": value.high}
    return data | ({"others": list(value.others)} if value.others else {})


def _source_data(one: Source) -> dict[str, str]:
    return {
        "key": one.key,
        "author": one.author,
        "title": one.title,
        "edition": one.edition,
        "where": one.where,
        "mark": str(one.mark),
        "text": str(one),
    }


def reckoner_lines(reckoner: Reckoner) -> list[str]:
    """What a reckoner asks and gives, for `lemel reckon NAME` without inputs."""
    asks = [f"{item.key}: {item.title}. {_asked_told(item)} {item.help}" for item in reckoner.inputs]
    gives = [f"{out.key}: {out.title}{f', {out.unit}' if out.unit else ''}" for out in reckoner.outputs]
    told = [f"{reckoner.name}: {reckoner.title}", "", f"  {reckoner.about}"]
    told += _block("Asks", asks) + _block("Gives", gives) + _block("Good for", list(reckoner.good_for))
    return [*told, *_block("Sources", [str(source(key)) for key in reckoner.sources])]


def _asked_told(item: Input) -> str:
    wanted = {
        Kind.NUMBER: f"From {item.low:,.10g} to {item.high:,.10g} {item.unit}.",
        Kind.CHOICE: f"One of {', '.join(item.choices)}.",
        Kind.TEXT: "",
    }[item.kind]
    may = f"If left out: {item.default}." if item.default else "May be left out." if item.optional else ""
    return " ".join(part for part in (wanted, may) if part)


def reckoner_data(reckoner: Reckoner) -> dict[str, Any]:
    """A reckoner as plain data: name, inputs with units and ranges, outputs, sources."""
    return {
        "name": reckoner.name,
        "title": reckoner.title,
        "about": reckoner.about,
        "inputs": [_input_data(item) for item in reckoner.inputs],
        "outputs": [{"key": o.key, "title": o.title, "kind": str(o.kind), "unit": o.unit} for o in reckoner.outputs],
        "formula": reckoner.formula,
        "good_for": list(reckoner.good_for),
        "sources": [_source_data(source(key)) for key in reckoner.sources],
        "caution": reckoner.caution,
    }


def _input_data(item: Input) -> dict[str, Any]:
    data: dict[str, Any] = {
        "key": item.key,
        "title": item.title,
        "help": item.help,
        "kind": str(item.kind),
        "default": item.default,
        "optional": item.optional,
    }
    if item.kind is Kind.NUMBER:
        data |= {
            "unit": item.unit,
            "units": list(item.units),
            "low": item.low,
            "high": item.high,
            "sound": list(item.sound) if item.sound else None,
            "whole": item.whole,
        }
    return data | ({"choices": dict(item.choices)} if item.choices else {})
