"""Units: printed gauges, exact weights and old money. "From memory" stands where a source was recalled."""

from __future__ import annotations

import pytest

from archive.reckoners.gauges import gauge, thicknesses
from archive.reckoners.measures import convert
from archive.reckoners.money import pounds_shillings_pence
from tests.published.checks import Check, half_last_digit

SWG = (
    "7/0 .500, 6/0 .464, 5/0 .432, 4/0 .400, 3/0 .372, 2/0 .348, 0 .324, 1 .300, 2 .276, 3 .252, 4 .232, 5 .212, "
    "6 .192, 7 .176, 8 .160, 9 .144, 10 .128, 11 .116, 12 .104, 13 .092, 14 .080, 15 .072, 16 .064, 17 .056, 18 .048, "
    "19 .040, 20 .036, 21 .032, 22 .028, 23 .024, 24 .022, 25 .020, 26 .018, 27 .0164, 28 .0148, 29 .0136, 30 .0124, "
    "36 .0076, 40 .0048, 50 .001"
)
BG = (
    "3/0 .5000, 2/0 .4452, 0 .3964, 1 .3532, 2 .3147, 3 .2804, 4 .2500, 5 .2225, 6 .1981, 7 .1764, 8 .1570, 9 .1398, "
    "10 .1250, 11 .1113, 12 .0991, 13 .0882, 14 .0785, 15 .0699, 16 .0625, 17 .0556, 18 .0495, 19 .0440, 20 .0392, "
    "21 .0349, 22 .03125"
)
BWG = "10 .134, 16 .065, 18 .049, 20 .035, 24 .022"
B_AND_S = "0 .3249, 6 .1620, 10 .1019, 12 .0808, 16 .0508, 18 .0403, 20 .0320, 24 .0201, 30 .0100"
ROWS = [
    (table, *row.split())
    for table, printed in (("SWG", SWG), ("BG", BG), ("BWG", BWG), ("B&S", B_AND_S))
    for row in printed.split(", ")
]

CHECKS = (
    *(
        Check("units/gauge", f"{source}: 20 {table}", {"thickness": f"20 {table}"}, {"inch": printed})
        for source, table, printed in (
            ("Imperial Standard Wire Gauge, 1884", "SWG", ".036"),
            ("Birmingham Gauge, 1914", "BG", ".0392"),
            ("Stubs gauge", "BWG", ".035"),
            ("ASTM B258 formula and a public table", "B&S", ".0320"),
            ("United States Standard (from memory)", "US", ".0375"),
        )
    ),
    *(
        Check("units/gauge", f"arithmetic: {fraction} in", {"thickness": f"{fraction} in"}, expected)
        for fraction, expected in (
            ("1/64", {"inch": ".015625", "mm": "0.396875"}),
            ("1/32", {"inch": ".03125"}),
            ("1/16", {"inch": ".0625", "mm": "1.5875"}),
        )
    ),
    *(
        Check("units/weight", f"Weights and Measures Act 1985 (from memory): {written}", {"weight": written}, expected)
        for written, expected in (
            ("1 gr", {"g": "0.06479891"}),
            ("1 dwt", {"g": "1.55517384", "gr": "24"}),
            ("1 oz t", {"g": "31.1034768", "dwt": "20", "gr": "480"}),
            ("1 lb t", {"g": "373.2417216", "ozt": "12"}),
            ("1 oz", {"g": "28.349523125", "gr": "437.5"}),
            ("1 lb", {"gr": "7000"}),
        )
    ),
    Check("units/weight", "arithmetic on the exempt weight of silver: 5 dwt", {"weight": "5 dwt"}, {"g": "7.7759"}),
    Check("units/old-money", "arithmetic: £3 17s 6d is 930 d, £3.875", {"sum": "£3 17s 6d"},
          {"pence": "930", "pounds": "3.875"}),
    Check("units/old-money", "Decimal Currency Act (from memory): a guinea is 21 s", {"sum": "1 guinea"},
          {"pence": "252", "shillings": "21"}),
    Check("units/old-money", "Decimal Currency Act (from memory): a shilling is 5 new pence", {"sum": "1s"},
          {"pounds": "0.05"}),
    *(
        Check("units/temperature", f"temper colours by arithmetic: {fahrenheit} °F",
              {"temperature": f"{fahrenheit} °F"}, {"celsius": celsius})
        for fahrenheit, celsius in ((430, "221"), (460, "238"), (500, "260"), (530, "277"), (550, "288"),
                                    (570, "299"), (580, "304"), (600, "316"))
    ),
)  # fmt: skip


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_printed_figures(check: Check) -> None:
    """The reckoner gives the printed figure to half of its last digit."""
    check.holds()


@pytest.mark.parametrize(("table", "number", "printed"), ROWS)
def test_printed_gauges(table: str, number: str, printed: str) -> None:
    """SWG of 1884, BG of 1914, Stubs and B&S, as public tables print them."""
    found = gauge(table, number)
    assert found
    assert abs(found.thickness_in - float(printed)) <= half_last_digit(printed)


def test_the_birmingham_gauge_halves_every_six_numbers() -> None:
    """The 1914 gauge is its own check: 4, 10, 16, 22 and 28 are 1/4, 1/8, 1/16, 1/32 and 1/64 inch."""
    for place, number in enumerate(("4", "10", "16", "22", "28")):
        found = gauge("BG", number)
        assert found
        assert found.thickness_in == 0.25 / 2**place


def test_twenty_gauge_is_five_thicknesses() -> None:
    """The trap: .036 SWG, .0392 BG, .035 BWG, .0320 B&S, .0375 US standard."""
    assert [f"{found.thickness_in:.4f}" for found in thicknesses("20")] == [
        "0.0360", "0.0392", "0.0350", "0.0320", "0.0375"
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("pence", "told"),
    [(930, "£3 17s 6d"), (2500, "£10 8s 4d"), (240, "£1 0s 0d"), (212.5, "17s 8½d"), (111, "9s 3d"), (0.25, "¼d")],
)
def test_old_money_as_told(pence: float, told: str) -> None:
    """Sums worked in the reference, told as the wages book told them."""
    assert pounds_shillings_pence(pence) == told


def test_hundredweight_and_ton() -> None:
    """Weights and Measures Act 1985 (from memory): 112 lb and 2,240 lb; a ton is 1016.05 kg."""
    assert convert(1, "cwt", "lb") == pytest.approx(112)
    assert abs(convert(1, "ton", "kg") - 1016.05) <= half_last_digit("1016.05")
