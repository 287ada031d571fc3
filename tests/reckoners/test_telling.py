"""Results are told whole: as lines for people and as data for machines."""

from __future__ import annotations

import json

import pytest

from archive.reckoners.registry import RECKONERS, reckon
from archive.reckoners.shape import CAUTION, Reckoner
from archive.reckoners.telling import as_data, figure_told, lines, reckoner_data, reckoner_lines

all_reckoners = pytest.mark.parametrize("reckoner", RECKONERS.values(), ids=lambda one: one.name)


def test_lines_hold_the_answer_the_sum_the_sources_and_the_caution() -> None:
    """Someone with the printed sheet alone can follow and judge it."""
    told = "\n".join(lines(reckon("metal/cold-reduction", {"before": "1.43 mm", "after": "0.90 mm"})))
    for part in ("Reduction: 37.1 %", "Temper: hard", "1 − (0.9 / 1.43)", "Sources:", "Good for:", CAUTION):
        assert part in told


def test_a_source_recalled_is_told_as_such() -> None:
    """ "From memory" stands beside the source wherever it is told."""
    told = "\n".join(lines(reckon("metal/tool-steel", {})))
    assert "Heat Treater's Guide, W1 (from memory)" in told


@pytest.mark.parametrize(
    ("name", "inputs", "key", "told"),
    [
        ("metal/cold-reduction", {"before": "1.43", "after": "0.9"}, "reduction", "37.1 %"),
        ("output/shift-output", {"rate": "8 to 12"}, "pieces", "3,840 to 5,760 pieces, about 4,800 pieces"),
        ("output/piece-wages", {"pieces": "85 gross", "rate": "2½d"}, "pay", "17s 8½d"),
        ("output/piece-wages", {"pieces": "85 gross", "rate": "2½d"}, "decimal", "£0.885"),
        ("units/old-money", {"sum": "7/6 to 10/-"}, "sum", "7s 6d to 10s 0d, about 8s 9d"),
        ("metal/density", {"alloy": "C26000"}, "error", "−2.4 %"),
        ("metal/density", {"alloy": "fine-silver"}, "error", "0.0 %"),
    ],
)
def test_figures_as_told(name: str, inputs: dict[str, str], key: str, told: str) -> None:
    """Decimals, thousands, ranges and money are told as the trade would."""
    assert figure_told(reckon(name, inputs).value(key)) == told


def test_data_is_plain_json() -> None:
    """The result goes through JSON unchanged, with value, unit, range, steps and marks of sources."""
    data = as_data(reckon("metal/lever-silver-copper", {"copper": "20 to 30 %"}))
    assert json.loads(json.dumps(data)) == data
    assert data["values"]["silver_solid"]["unit"] == "%"
    assert data["values"]["silver_solid"]["low"] < data["values"]["silver_solid"]["value"]
    assert {source["mark"] for source in data["sources"]} == {"published", "from memory"}
    assert data["steps"]
    assert data["caution"] == CAUTION


@all_reckoners
def test_a_reckoner_is_told_with_its_fields_and_ranges(reckoner: Reckoner) -> None:
    """The list for machines and the help for people name every input and output."""
    data = reckoner_data(reckoner)
    assert json.loads(json.dumps(data)) == data
    assert [field["key"] for field in data["inputs"]] == [item.key for item in reckoner.inputs]
    told = "\n".join(reckoner_lines(reckoner))
    assert all(f"{item.key}: {item.title}" in told for item in reckoner.inputs)
    assert all(f"{output.key}: {output.title}" in told for output in reckoner.outputs)
