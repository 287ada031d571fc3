"""Metal: printed figures of fineness, alloys, working and heat. "From memory" stands where a source was recalled."""

from __future__ import annotations

import pytest

from archive.reckoners.metal.alloys import TEMPER_NUMBERS
from archive.reckoners.metal.cold_reduction import strip_reduction_percent, wire_reduction_percent
from archive.reckoners.registry import reckon
from tests.published.checks import Check, half_last_digit

FINENESS = (
    *(
        Check("metal/fineness", f"arithmetic: {carat} carat", {"fineness": f"{carat} ct"}, {"fineness": printed})
        for carat, printed in ((9, "375"), (14, "583.33"), (15, "625"), (18, "750"), (22, "916.67"))
    ),
    *(
        Check(
            "metal/fineness",
            f"Finnish guidance on articles of precious metals: {permille} marks {mark}",
            {"fineness": permille, "metal": "gold"},
            {"mark": mark},
        )
        for permille, mark in (("588", "585 (14 carat)"), ("584", "375 (9 carat)"))
    ),
    *(
        Check(
            "metal/fineness",
            f"Hallmarking Act 1973 Schedule 2: {metal} {permille}",
            {"fineness": permille, "metal": metal, "law": "1973"},
            {"mark": mark},
        )
        for metal, permille, mark in (
            ("gold", "375", "375 (9 carat)"),
            ("gold", "585", "585 (14 carat)"),
            ("gold", "750", "750 (18 carat)"),
            ("gold", "916.6", "916.6 (22 carat)"),
            ("silver", "925", "925 (sterling)"),
            ("silver", "958.4", "958.4 (Britannia)"),
        )
    ),
    *(
        Check(
            "metal/fineness",
            f"SI 1998/2978 and later orders (from memory): {metal} {permille}",
            {"fineness": permille, "metal": metal},
            {"mark": permille},
        )
        for metal, permille in (
            ("gold", "990"), ("gold", "999"), ("silver", "800"), ("silver", "999"), ("platinum", "850"),
            ("platinum", "900"), ("platinum", "950"), ("platinum", "999"), ("palladium", "500"), ("palladium", "950"),
            ("palladium", "999"),
        )
    ),
    Check(
        "metal/fineness",
        "Henley's 22 ct solder, 1 dwt gold, 3 gr silver, 2 gr copper: 19.9 carat by arithmetic",
        {"precious": "1 dwt", "total": "29 gr"},
        {"fineness": "827.6", "carat": "19.9"},
    ),
    Check(
        "metal/mixing",
        "Henley's 22 ct solder, gold brought down to 24 parts in 29",
        {"mass": "24 g", "now": "1000", "wanted": "827.586", "added": "0"},
        {"add": "5.00", "whole": "29.00"},
    ),
    Check(
        "metal/mixing",
        "Hallmarking Act 1973 Schedule 2: fine silver to sterling, 925 parts in 1000",
        {"mass": "925 g", "now": "1000", "wanted": "925", "added": "0"},
        {"add": "75.0", "whole": "1000", "precious": "925"},
    ),
)  # fmt: skip

DENSITY = (
    *(
        Check("metal/density", f"ideal mixing by arithmetic on handbook densities: {alloy}", {"alloy": alloy},
              {"density": printed})
        for alloy, printed in (
            ("C22000", "8.74"), ("C23000", "8.63"), ("C26000", "8.32"), ("C75200", "8.58"), ("britannia", "10.42"),
            ("coinage-bronze-1923", "8.87"), ("gold-9", "11.15"), ("gold-14", "12.86"), ("gold-18", "15.59"),
            ("gold-22", "17.9"), ("gold-18-english", "15.45"),
        )
    ),
    Check("metal/density", "ideal mixing by arithmetic: sterling", {"composition": "Ag 92.5, Cu 7.5"},
          {"density": "10.357"}),
    *(
        Check("metal/density", f"known error of ideal mixing against handbook data: {alloy}", {"alloy": alloy},
              {"error": printed})
        for alloy, printed in (("C22000", "-0.7"), ("C23000", "-1.4"), ("C26000", "-2.4"), ("C75200", "-1.7"))
    ),
)  # fmt: skip

TABLE = (
    *(
        Check("metal/alloy", source, {"alloy": alloy}, expected)
        for source, alloy, expected in (
            ("mill's data sheet for C26000", "C26000", {"density": "8.53"}),
            ("wire maker's data sheet for C26000", "C26000",
             {"solidus": "915", "liquidus": "955", "anneal_from": "425", "anneal_to": "750"}),
            ("mill's data sheet for C22000", "C22000", {"density": "8.80"}),
            ("public data sheets for C22000, 1870 to 1910 °F", "C22000", {"solidus": "1020", "liquidus": "1045"}),
            ("public data sheet for C22000, annealing", "C22000", {"anneal_from": "427", "anneal_to": "788"}),
            ("maker's data sheet for sterling, labels put right", "sterling",
             {"density": "10.36", "solidus": "788", "liquidus": "891"}),
            ("ITS-90 (from memory)", "fine-silver", {"solidus": "961.78"}),
            ("ITS-90 (from memory)", "fine-gold", {"solidus": "1064.18"}),
            ("Woldman as quoted", "gold-18", {"solidus": "895", "liquidus": "930"}),
            ("Copper Development Association (from memory)", "C23000", {"anneal_from": "427", "anneal_to": "732"}),
        )
    ),
)  # fmt: skip

LEVER = (
    *(
        Check("metal/lever-silver-copper", f"arithmetic on NIST Ag-Cu: {copper} % copper", {"copper": copper}, expected)
        for copper, expected in (
            ("20", {"primary": "41.8", "eutectic": "58.2", "silver_solid": "86.1"}),
            ("28.41", {"silver_solid": "76.1", "eutectic": "100.0"}),
            ("60", {"primary": "49.3", "silver_solid": "38.6"}),
            ("7.5", {"eutectic": "0.0", "silver_solid": "100.0"}),
        )
    ),
    Check("metal/lever-silver-copper", "Callister (from memory): eutectic at 28.1 % copper",
          {"copper": "28.1", "figures": "textbook"}, {"eutectic": "100.0", "primary": "0.0"}),
    Check("metal/lever-copper-zinc", "60/40 at 600 °C, textbook chapter 12", {"zinc": "40", "temperature": "600"},
          {"alpha": "56.9", "alpha_limit": "36.9", "beta_limit": "44.1"}),
    Check("metal/lever-copper-zinc", "Higgins chapter 16, alpha at 454 °C", {"zinc": "30", "temperature": "454"},
          {"alpha_limit": "39.0", "alpha": "100"}),
    Check("metal/lever-copper-zinc", "Higgins chapter 16, alpha at 902 °C", {"zinc": "30", "temperature": "902"},
          {"alpha_limit": "32.5"}),
    Check("metal/lever-copper-zinc", "Higgins chapter 16, alpha at 250 °C", {"zinc": "30", "temperature": "250"},
          {"alpha_limit": "35.2"}),
    # The boundary of beta is drawn straight from 600 to 903 °C, so the founder's rounded figure is met to 4 %.
    Check("metal/lever-copper-zinc", "brass founder's notes: 60 % copper, beta 70 % at 700 °C",
          {"zinc": "40", "temperature": "700"}, {"beta": "70"}, within=4),
)  # fmt: skip

COLD = (
    *(
        Check("metal/cold-reduction", f"mill's data sheet for C26000 (ASTM B36): {temper}",
              {"before": "1 mm", "reduction": f"{strip_reduction_percent(TEMPER_NUMBERS[temper]):.10f} %",
               "alloy": "C26000"},
              {"temper": temper, "strength_from": low, "strength_to": high})
        for temper, low, high in (
            ("quarter hard", "340", "405"), ("half hard", "395", "460"), ("three-quarter hard", "440", "510"),
            ("hard", "490", "560"), ("extra hard", "570", "635"), ("spring", "625", "690"),
            ("extra spring", "655", "755"),
        )
    ),
    *(
        Check("metal/cold-reduction", f"wire maker's data sheet for C26000: {temper}",
              {"before": "1 mm", "reduction": f"{wire_reduction_percent(TEMPER_NUMBERS[temper]):.10f} %",
               "alloy": "C26000", "form": "wire"},
              {"temper": temper, "strength_from": low})
        for temper, low in (("half hard", "545"), ("hard", "700"), ("spring", "830"))
    ),
    *(
        Check("metal/cold-reduction", f"Copper Development Association table for C23000, {ksi} ksi: {temper}",
              {"before": "1 mm", "reduction": f"{strip_reduction_percent(TEMPER_NUMBERS[temper]):.10f} %",
               "alloy": "C23000"},
              {"strength_from": printed})
        for temper, ksi, printed in (("quarter hard", 49, "338"), ("half hard", 57, "393"), ("hard", 70, "483"),
                                     ("extra hard", 78, "538"))
    ),
    *(
        Check("metal/cold-reduction", f"hardness of sterling by temper, a silversmith's pages: {temper}",
              {"before": "1 mm", "reduction": f"{strip_reduction_percent(TEMPER_NUMBERS[temper]):.10f} %",
               "alloy": "sterling"},
              {"hardness_from": low, "hardness_to": high})
        for temper, low, high in (("quarter hard", "78", "88"), ("half hard", "90", "100"),
                                  ("three-quarter hard", "102", "114"), ("hard", "116", "130"))
    ),
    Check("metal/cold-reduction", "strip merchant's table of tempers: hard is 37.1 %",
          {"before": "0.0320 in", "after": "0.0201 in"}, {"reduction": "37", "temper": "hard"}),
)  # fmt: skip

HEAT = (
    Check("metal/anneal-window", "public data sheet for C22000", {"alloy": "C22000"},
          {"anneal_from": "427", "anneal_to": "788"}),
    Check("metal/anneal-window", "wire maker's data sheet for C26000", {"alloy": "C26000"},
          {"anneal_from": "425", "anneal_to": "750"}),
    Check("metal/anneal-window", "Callister (from memory): 0.3 to 0.5 of the melting point of copper, 1338 K",
          {"alloy": "C11000"}, {"softens_from": "128", "softens_to": "396"}),
    *(
        Check("metal/recrystallisation", f"Callister, Table 8.2 (from memory): {metal}", {"metal": metal}, {"at": at})
        for metal, at in (("lead", "-4"), ("tin", "-4"), ("zinc", "10"), ("aluminium", "80"), ("copper", "120"),
                          ("brass", "475"), ("nickel", "370"), ("iron", "450"), ("tungsten", "1200"))
    ),
    *(
        Check("metal/heat-colour", f"{heat} °C in Chapman, Stirling, Taylor and White (the last from memory)",
              {"temperature": f"{heat} °C"}, {"chapman": chapman, "stirling": stirling, "taylor_white": taylor})
        for heat, chapman, stirling, taylor in (
            (532, "black red", "just visible", "dark blood red"), (699, "very dark red", "dull red", "medium cherry"),
            (843, "cherry", "dull cherry", "light red"), (900, "light cherry", "full cherry", "salmon"),
            (1000, "orange", "clear cherry", "yellow"), (1200, "yellow", "clear orange", "white"),
        )
    ),
    *(
        Check("metal/tool-steel", f"Colvin and Juthe, Table 26: {fahrenheit} °F", {"temper": f"{fahrenheit} °F"},
              {"colvin_juthe": colour})
        for fahrenheit, colour in ((430, "yellow"), (450, "yellow"), (460, "straw-yellow"), (500, "brown-yellow"),
                                   (530, "light purple"), (550, "dark purple"), (580, "pale blue"), (600, "blue"))
    ),
    *(
        Check("metal/tool-steel", f"Butt, Tinman's Manual: {fahrenheit} °F", {"temper": f"{fahrenheit} °F"},
              {"butt": colour})
        for fahrenheit, colour in ((430, "very pale straw"), (450, "straw"), (470, "darker straw"), (490, "yellow"),
                                   (500, "brown yellow"), (520, "tinged purple"), (530, "purple"),
                                   (550, "dark purple"), (570, "blue"), (600, "dark blue"))
    ),
    *(
        Check("metal/tool-steel", f"metric workshop list: {celsius} °C", {"temper": f"{celsius} °C"},
              {"workshop_colours": colour})
        for celsius, colour in ((230, "pale yellow"), (240, "dark yellow"), (250, "brown"), (260, "brown-purple"),
                                (270, "purple"), (280, "dark purple"), (300, "blue"))
    ),
    Check("metal/tool-steel", "Heat Treater's Guide, W1 (from memory): 50 to 64 HRC", {},
          {"hardness_from": "50", "hardness_to": "64"}),
    Check("metal/season-cracking", "wire maker's data sheet for C26000: stress relief 260 °C, 1 h",
          {"alloy": "C26000"}, {"relief_temperature": "260", "relief_time": "1"}),
)  # fmt: skip

CHECKS = (*FINENESS, *DENSITY, *TABLE, *LEVER, *COLD, *HEAT)


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_printed_figures(check: Check) -> None:
    """The reckoner gives the printed figure to half of its last digit."""
    check.holds()


@pytest.mark.parametrize(
    ("numbers", "strip", "wire"),
    [(1, "10.95", "20.7"), (2, "20.70", "37.1"), (3, "29.38", "50.1"), (4, "37.11", "60.45"), (6, "50.13", "75.1"),
     (8, "60.45", "84.4"), (10, "68.63", "90.2")],
)  # fmt: skip
def test_reductions_by_gauge_numbers(numbers: int, strip: str, wire: str) -> None:
    """Arithmetic on the formula of the gauge, as the reference works it; wire counts each number twice."""
    assert abs(strip_reduction_percent(numbers) - float(strip)) <= half_last_digit(strip)
    assert abs(wire_reduction_percent(numbers) - float(wire)) <= half_last_digit(wire)


@pytest.mark.parametrize(
    ("metal", "below", "above"),
    [("gold", "0.99 g", "1 g"), ("silver", "7.77 g", "7.78 g"), ("platinum", "0.49 g", "0.5 g"),
     ("palladium", "0.99 g", "1 g")],
)  # fmt: skip
def test_weights_that_need_no_mark(metal: str, below: str, above: str) -> None:
    """A table in a public document: exempt below gold 1 g, silver 7.78 g, platinum 0.5 g, palladium 1 g."""
    for weight, exempt in ((below, True), (above, False)):
        steps = reckon("metal/fineness", {"precious": weight, "total": weight, "metal": metal}).steps
        assert any("needs no mark" in step for step in steps) is exempt


@pytest.mark.parametrize(
    ("numbers", "printed"), [(1, 10.9), (2, 20.7), (3, 29.4), (4, 37.1), (6, 50.0), (8, 60.5), (10, 68.7)]
)
def test_reductions_printed_for_strip(numbers: int, printed: float) -> None:
    """Strip merchant's table of copper-base tempers; its last digits stray from the formula by up to 0.13."""
    assert abs(strip_reduction_percent(numbers) - printed) <= 0.13
