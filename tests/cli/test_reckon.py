"""The ready reckoners from a shell."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner, Result

from archive.cli import main
from archive.reckoners.registry import RECKONERS


def lemel(*words: str) -> Result:
    """What the command says."""
    return CliRunner().invoke(main, list(words))


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("no/such", "a=1"), "There is no reckoner “no/such”"),
        (("metal/fineness", "fineness"), "fineness: It is no name with a value"),
        (("metal/fineness", "=18ct"), "=18ct: It is no name with a value"),
        (("metal/fineness", "fineness=18ct", "fineness=9ct"), "fineness: It was given twice"),
        (("metal/fineness", "colour=red"), "colour: There is no such field"),
        (("metal/fineness", "fineness=-1"), "fineness:"),
        (("metal/fineness", "fineness=nan"), "fineness:"),
        (("metal/fineness", "fineness=1000000000"), "fineness:"),
        (("metal/cold-reduction", "before=1 kg", "after=20 gauge"), "before: “kg” is a unit of mass"),
        (("metal/cold-reduction", "before=1 kg", "after=20 gauge"), "after: "),
    ],
)
def test_bad_input_is_told_field_by_field(words: tuple[str, ...], told: str) -> None:
    """What cannot be reckoned ends with status 1, and each field's fault with its name."""
    answer = lemel("reckon", *words)
    assert answer.exit_code == 1
    assert told in answer.output
    assert "Traceback" not in answer.output


def test_an_answer_shows_sum_and_sources() -> None:
    """The plain answer has the figure, the sum and where it comes from."""
    answer = lemel("reckon", "output/gross", "pieces=28000")
    assert answer.exit_code == 0
    assert "194 gross and 64" in answer.output
    assert "28,000 / 144 = 194 gross, and 64 over." in answer.output
    assert "Sources:" in answer.output


def test_an_answer_as_json() -> None:
    """`--json` gives the same answer to machines."""
    answer = json.loads(lemel("reckon", "output/gross", "pieces=28000", "--json").output)
    assert answer["values"]["whole"]["value"] == 194
    assert answer["caution"]


def test_a_name_alone_tells_what_is_asked() -> None:
    """Without figures the command tells the fields, and reckons nothing."""
    assert "Asks:" in lemel("reckon", "metal/anneal-window").output


def test_the_list_names_every_reckoner() -> None:
    """`--list` tells each by name; as JSON with inputs, their units and ranges, outputs and sources."""
    assert all(name in lemel("reckon", "--list").output for name in RECKONERS)
    listed = json.loads(lemel("reckon", "--list", "--json").output)
    assert [one["name"] for one in listed] == list(RECKONERS)
    assert all(one["inputs"] and one["outputs"] and one["sources"] for one in listed)
    numbers = [item for one in listed for item in one["inputs"] if item["kind"] == "number"]
    assert all(item["unit"] and item["low"] < item["high"] for item in numbers)
