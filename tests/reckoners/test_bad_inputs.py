"""Bad input gives an answer field by field, for every reckoner alike."""

from __future__ import annotations

import pytest

from archive.errors import LemelError, NotFound, OutOfRange, Unacceptable
from archive.reckoners.registry import RECKONERS, reckon
from archive.reckoners.shape import Kind

NUMBERS = [
    (name, item.key) for name, reckoner in RECKONERS.items() for item in reckoner.inputs if item.kind is Kind.NUMBER
]
CHOICES = [
    (name, item.key) for name, reckoner in RECKONERS.items() for item in reckoner.inputs if item.kind is Kind.CHOICE
]
NONSENSE = ["nan", "inf", "-inf", "1e9", "-1e9", "1e400", "nonsense", "5 parsecs", "--", "3/0 mm", "\x00", "<b>1</b>"]


# Fields of which one or the other must be given, so each alone may be left empty.
ONE_OF = {
    "metal/fineness",
    "metal/density",
    "metal/season-cracking",
    "heat/solder-margin",
    "output/shift-output",
    "press/cup-drawing",
    "finish/plating",
    "finish/polishing-loss",
    "hazard/hearing-protector",
}


def needs_something(name: str) -> bool:
    """Whether a reckoner has no answer to an empty form."""
    inputs = RECKONERS[name].inputs
    return name in ONE_OF or any(item.default is None and not item.optional for item in inputs)


@pytest.mark.parametrize(("name", "key"), NUMBERS)
def test_nonsense_in_a_number_is_told_under_its_field(name: str, key: str) -> None:
    """NaN, infinity, a thousand million, a unit of nothing and plain nonsense are each refused, by key."""
    for text in NONSENSE:
        with pytest.raises(Unacceptable) as caught:
            reckon(name, {key: text})
        assert key in {fault.where for fault in caught.value.faults}, text
        assert all(fault.found and fault.allowed for fault in caught.value.faults)


@pytest.mark.parametrize(("name", "key"), CHOICES)
def test_an_unknown_choice_is_told_what_there_is(name: str, key: str) -> None:
    """An alloy, solder or chart that is not held is refused with the list of those that are."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, {key: "unobtainium"})
    fault = next(fault for fault in caught.value.faults if fault.where == key)
    assert "unobtainium" in fault.found
    assert all(choice in fault.allowed for choice in next(i for i in RECKONERS[name].inputs if i.key == key).choices)


@pytest.mark.parametrize("name", RECKONERS)
def test_an_unknown_field_is_told(name: str) -> None:
    """A field that does not exist is refused by its own name."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, {"colour_of_the_cat": "black"})
    assert "colour_of_the_cat" in {fault.where for fault in caught.value.faults}


@pytest.mark.parametrize("name", RECKONERS)
def test_empty_fields_are_told_or_taken_by_default(name: str) -> None:
    """A form sent empty gives an answer from defaults, or the fields that are wanting; never a crash."""
    empty = {item.key: "" for item in RECKONERS[name].inputs}
    if needs_something(name):
        with pytest.raises(Unacceptable) as caught:
            reckon(name, empty)
        assert {fault.where for fault in caught.value.faults} <= set(empty)
    else:
        assert reckon(name, empty).values


def test_all_faults_are_told_together() -> None:
    """Three bad fields are three faults, not one after another."""
    with pytest.raises(Unacceptable) as caught:
        reckon("metal/cold-reduction", {"before": "20 gauge", "after": "nan", "alloy": "mithril", "form": "wire"})
    assert [fault.where for fault in caught.value.faults] == ["after", "alloy", "before"]
    assert "nothing was reckoned" in str(caught.value)


def test_an_unknown_reckoner_is_told_which_there_are() -> None:
    """The refusal lists the names."""
    with pytest.raises(NotFound, match="metal/fineness"):
        reckon("metal/alchemy", {})


@pytest.mark.parametrize(
    ("name", "given", "says"),
    [
        ("metal/mixing", {"now": "750", "wanted": "375", "added": "1000"}, "less fine"),
        ("metal/lever-copper-zinc", {"zinc": "40", "temperature": "400"}, "from 600 to 902"),
        ("metal/lever-copper-zinc", {"zinc": "49", "temperature": "700"}, "Give less zinc"),
    ],
)
def test_beyond_the_method_is_refused_with_what_it_takes(name: str, given: dict[str, str], says: str) -> None:
    """No extrapolation: the refusal says what would be needed."""
    with pytest.raises(OutOfRange, match=says):
        reckon(name, given)


@pytest.mark.parametrize(
    ("name", "given", "field"),
    [
        ("metal/fineness", {}, "precious"),
        ("metal/fineness", {"precious": "2 g", "total": "1 g"}, "precious"),
        ("metal/fineness", {"precious": "1 g", "total": "2 g", "fineness": "500"}, "fineness"),
        ("metal/cold-reduction", {"before": "1 mm", "after": "2 mm"}, "after"),
        ("metal/cold-reduction", {"before": "1 mm"}, "after"),
        ("metal/cold-reduction", {"before": "-1 mm", "after": "1 mm"}, "before"),
        ("metal/density", {}, "alloy"),
        ("metal/density", {"composition": "Cu 90"}, "composition"),
        ("metal/density", {"composition": "Cu 90, Cu 10"}, "composition"),
        ("metal/density", {"composition": "Cu 90, Xx 10"}, "composition"),
        ("metal/density", {"composition": "lots of copper"}, "composition"),
        ("metal/season-cracking", {}, "alloy"),
        ("heat/solder-margin", {}, "parent"),
        ("heat/step-soldering", {"joints": "superglue"}, "joints"),
        ("heat/step-soldering", {"parents": "mithril"}, "parents"),
        ("heat/step-soldering", {"joints": "hard," * 1000}, "joints"),
        ("heat/step-soldering", {"joints": "hard, " * 13}, "joints"),
        ("output/order-time", {"order": "1 gross", "rate": "40", "presses": "2.5"}, "presses"),
        ("output/shift-output", {}, "rate"),
        ("output/gross", {"pieces": "1.5"}, "pieces"),
        ("units/gauge", {"thickness": "20 gauge"}, "thickness"),
        ("metal/fineness", {"fineness": "925", "fineness_percent_fine": "92.5"}, "fineness"),
    ],
)
def test_inputs_that_do_not_go_together(name: str, given: dict[str, str], field: str) -> None:
    """Each is refused under the field to mend."""
    with pytest.raises(Unacceptable) as caught:
        reckon(name, given)
    assert field in {fault.where for fault in caught.value.faults}
    assert isinstance(caught.value, LemelError)


def test_a_long_sum_takes_few_ranges_at_once() -> None:
    """Every corner of what is about is worked out, so a layout refuses a third range and says where."""
    about = {"outline": "circle 18 mm", "length": "about 600 mm", "width": "about 300 mm"}
    assert reckon("press/sheet-layout", about).value("pieces").low
    with pytest.raises(Unacceptable, match="2 ranges at once") as raised:
        reckon("press/sheet-layout", {**about, "thickness": "about 1 mm", "bridge": "about 1 mm"})
    assert {fault.where for fault in raised.value.faults} == {"thickness", "bridge"}
