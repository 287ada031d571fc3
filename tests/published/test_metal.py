"""Metal: printed figures of fineness, alloys, working and heat."""

from __future__ import annotations

import pytest

from tests.published.checks import Check

COMPUTED = "arithmetic on the definition"
CHECKS = (
    *(
        Check("metal/fineness", f"{COMPUTED}: {carat} carat", {"fineness": f"{carat} ct"}, {"fineness": printed})
        for carat, printed in ((9, "375"), (14, "583.33"), (15, "625"), (18, "750"), (22, "916.67"))
    ),
    Check("metal/fineness", "Finnish guidance on articles of precious metals: 588 marks 585",
          {"fineness": "588", "metal": "gold"}, {"mark": "585 (14 carat)"}),
    Check("metal/fineness", "Finnish guidance on articles of precious metals: 584 marks 375",
          {"fineness": "584", "metal": "gold"}, {"mark": "375 (9 carat)"}),
    Check("metal/fineness", "Hallmarking Act 1973, Schedule 2: sterling", {"precious": "92.5 g", "total": "100 g",
          "metal": "silver", "law": "1973"}, {"fineness": "925", "mark": "925 (sterling)"}),
    Check("metal/fineness", "Henley's recipe for 22 ct solder, 1 dwt gold, 3 gr silver, 2 gr copper: 19.9 carat",
          {"precious": "24 gr", "total": "29 gr"}, {"fineness": "827.6", "carat": "19.9"}),
)


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_printed_figures(check: Check) -> None:
    """The reckoner gives the printed figure to half of its last digit."""
    check.holds()
