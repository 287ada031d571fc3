"""Quantities are read as people write them, and refused with what is wrong and what is allowed."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.reckoners.measures import convert, unit_of, units_in
from archive.reckoners.quantities import Amount, read_amount
from archive.reckoners.unread import NotRead

REFUSED = [
    ("", "mm", "is not a number with a unit"),
    ("five", "mm", "is not a number with a unit"),
    ("nan", "mm", "is not a number with a unit"),
    ("inf", "mm", "is not a number with a unit"),
    ("-inf", "mm", "is not a number with a unit"),
    ("1e400", "mm", "too great to be a number"),
    ("1,5", "mm", "has a comma"),
    ("1/0 in", "mm", "divides by nothing"),
    ("5 kg", "mm", "“kg” is a unit of mass"),
    ("5 furlongs", "mm", "“furlongs” is not a unit known here"),
    ("20 g", "mm", "“g” is a unit of mass"),
    ("3 5", "mm", "is not a number with a unit"),
    ("³", "mm", "is not a number with a unit"),
    ("20 gauge", "mm", "does not say which gauge"),
    ("No. 20 ga", "mm", "does not say which gauge"),
    ("99 SWG", "mm", "has no number 99"),
    ("7/13/4/2", "d", "is not a unit known here"),
    ("8 to", "mm", "“to” is not a unit known here"),
    ("about about 8", "mm", "is not a number with a unit"),
    ("1" * 200, "mm", "is too long"),
    ("1; drop", "mm", "is not a unit known here"),
]


@pytest.mark.parametrize(("text", "unit", "found"), REFUSED)
def test_what_cannot_be_read_is_refused_in_words(text: str, unit: str, found: str) -> None:
    """The fault says what was found and what is allowed."""
    with pytest.raises(NotRead) as caught:
        read_amount(text, unit)
    assert found in caught.value.found
    assert caught.value.allowed


def test_a_gauge_without_its_table_is_told_all_five_thicknesses() -> None:
    """The refusal names every table with its thickness, so that the next try is right."""
    with pytest.raises(NotRead) as caught:
        read_amount("20 gauge", "mm")
    for told in ("20 SWG is 0.914", "20 BG is 0.996", "20 BWG is 0.889", "20 B&S is 0.812", "20 US is 0.952"):
        assert told in caught.value.allowed


WRITTEN = [
    ("1/16 in", "mm", 1.5875),
    ("3 1/2 in", "mm", 88.9),
    ("3-1/2 in", "mm", 88.9),
    ("3½ in", "mm", 88.9),
    ('2"', "mm", 50.8),
    ("2' 6\"", "mm", 762),
    ("2'6\"", "mm", 762),
    ("62 thou", "mm", 1.5748),
    ("20 SWG", "mm", 0.9144),
    ("SWG 20", "mm", 0.9144),
    ("No. 20 B.G.", "mm", 0.99568),
    ("20 AWG", "mm", 0.8118210),
    ("4/0 SWG", "mm", 10.16),
    ("0000 SWG", "mm", 10.16),
    ("1.5", "mm", 1.5),
    (".5 mm", "mm", 0.5),
    ("1,500 mm", "mm", 1500),
    ("-4 °C", "°C", -4),
    ("−4 °C", "°C", -4),
    ("430 °F", "°C", 221.1111),
    ("1 cwt 2 qr 14 lb", "lb", 182),
    ("3 lb 4 oz", "oz", 52),
    ("2 oz t 5 dwt", "dwt", 45),
    ("2 Lbs.", "lb", 2),
    ("10 tons", "kN", 99.640164),
    ("1 h 30 min", "min", 90),
    ("22 gross 5 dozen", "pieces", 3228),
    ("1 great gross", "pieces", 1728),
    ("18 ct", "‰", 750),
    ("75 %", "‰", 750),
    ("£3 17s 6d", "d", 930),
    ("7/6", "d", 90),
    ("7/-", "d", 84),
    ("£1/2/6", "d", 270),
    ("2½d", "d", 2.5),
    ("½d", "d", 0.5),
    ("£3.875", "d", 930),
    ("£1,000", "d", 240_000),
    ("1e-3 mm", "mm", 0.001),
    ("2 guineas", "d", 504),
    ("300 MPa", "N/mm²", 300),
    ("40 strokes a minute", "a minute", 40),
]


@pytest.mark.parametrize(("text", "unit", "value"), WRITTEN)
def test_one_figure_as_people_write_it(text: str, unit: str, value: float) -> None:
    """Fractions, gauges, old weights, old money and old heats are read without ado."""
    amount = read_amount(text, unit)
    assert amount.exact
    assert amount.point == pytest.approx(value, rel=1e-6)


ABOUT = [
    ("8 to 12", "a minute", (8, 10, 12)),
    ("8-12 a minute", "a minute", (8, 10, 12)),
    ("8–12", "a minute", (8, 10, 12)),
    ("between 8 and 12 a minute", "a minute", (8, 10, 12)),
    ("12 to 8", "a minute", (8, 10, 12)),
    ("about 10", "a minute", (9, 10, 11)),
    ("c. 10 a minute", "a minute", (9, 10, 11)),
    ("10 ± 1", "a minute", (9, 10, 11)),
    ("10 +/- 1 a minute", "a minute", (9, 10, 11)),
    ("10 ± 10 %", "a minute", (9, 10, 11)),
    ("20 to 22 SWG", "mm", (0.7112, 0.8128, 0.9144)),
    ("1/16 to 1/8 in", "mm", (1.5875, 2.38125, 3.175)),
    ("1 ft to 14 in", "in", (12, 13, 14)),
    ("400 ± 9 °F", "°C", (199.4444, 204.4444, 209.4444)),
    ("-10 to -5 °C", "°C", (-10, -7.5, -5)),
    ("4 to 6d", "d", (4, 5, 6)),
    ("about 7/6", "d", (81, 90, 99)),
    ("7/6 to 10/-", "d", (90, 105, 120)),
]


@pytest.mark.parametrize(("text", "unit", "expected"), ABOUT)
def test_what_is_only_about(text: str, unit: str, expected: tuple[float, float, float]) -> None:
    """A range keeps its ends; "about" is a tenth each way; a difference of heats is not shifted by the zero."""
    amount = read_amount(text, unit)
    assert (amount.low, amount.point, amount.high) == pytest.approx(expected, rel=1e-5)


@given(st.text(max_size=40), st.sampled_from(["mm", "g", "d", "°C", "‰", "pieces"]))
def test_any_text_is_read_or_refused(text: str, unit: str) -> None:
    """No text at all raises anything but a refusal."""
    try:
        amount = read_amount(text, unit)
    except NotRead:
        return
    assert isinstance(amount, Amount)
    assert amount.low <= amount.point <= amount.high


PINT_NAMES = {
    "mm": "mm", "µm": "um", "cm": "cm", "m": "m", "in": "inch", "thou": "thou", "ft": "foot", "yd": "yard",
    "g": "g", "mg": "mg", "kg": "kg", "t": "metric_ton", "gr": "grain", "dwt": "pennyweight", "oz t": "troy_ounce",
    "lb t": "troy_pound", "oz": "ounce", "lb": "pound", "cwt": "UK_hundredweight", "ton": "UK_ton",
    "gem ct": "carat", "mm²": "mm**2", "cm²": "cm**2", "dm²": "dm**2", "m²": "m**2", "in²": "inch**2",
    "ft²": "foot**2", "mL": "mL", "L": "L", "m³": "m**3", "pint": "imperial_pint", "gal": "imperial_gallon", "N": "N",
    "kN": "kN", "kgf": "kgf", "lbf": "lbf", "tonf": "UK_force_ton", "J": "J", "kJ": "kJ", "ft lbf": "foot*lbf",
    "W": "W", "kW": "kW", "hp": "hp", "N/mm²": "MPa", "kPa": "kPa", "Pa": "Pa", "GPa": "GPa", "psi": "psi",
    "ksi": "ksi",
    "tonf/in²": "UK_force_ton/inch**2", "°C": "degC", "°F": "degF", "K": "K", "s": "s", "min": "min", "h": "hour",
    "day": "day", "year": "year", "m/s": "m/s", "ft/s": "foot/s", "mph": "mph", "g/cm³": "g/cm**3",
    "kg/m³": "kg/m**3", "lb/in³": "pound/inch**3", "A/dm²": "A/dm**2", "A/ft²": "A/foot**2",
}  # fmt: skip


def test_pint_agrees_with_every_factor() -> None:
    """An independent library gives the same conversion, both ways, for every physical unit."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for symbol, name in PINT_NAMES.items():
        base = units_in(unit_of(symbol).family)[0]
        for value in (0.0, 1.0, 37.5):
            expected = registry.Quantity(value, name).to(PINT_NAMES[base]).magnitude
            assert convert(value, symbol, base) == pytest.approx(expected, rel=1e-12, abs=1e-9), symbol
            assert convert(convert(value, symbol, base), base, symbol) == pytest.approx(value, rel=1e-12, abs=1e-9)


def test_units_of_unlike_families_are_never_turned_into_each_other() -> None:
    """Grams do not become millimetres."""
    with pytest.raises(ValueError, match="is mass"):
        convert(1, "g", "mm")


@given(st.integers(min_value=0, max_value=6400))
def test_inch_fractions_are_exact(sixty_fourths: int) -> None:
    """Any number of sixty-fourths of an inch, written as a fraction or with whole inches before it, is that length."""
    whole, rest = divmod(sixty_fourths, 64)
    for written in (f"{sixty_fourths}/64 in", f"{whole} {rest}/64 in"):
        assert read_amount(written, "mm").point == pytest.approx(sixty_fourths * 0.396875)
