"""What is said with every sum about a bath, beside the caution that all reckoners carry."""

from __future__ import annotations

from archive.reckoners.shape import CAUTION

ACID_CAUTION = (
    "Pour acid into water, slowly, never water into acid: it boils and spits. Never let acid and cyanide meet: the gas "
    f"kills. {CAUTION}"
)
CYANIDE_CAUTION = (
    "Gold, silver and many copper baths hold cyanide: never let acid come near them, for the gas kills. Chromium baths "
    f"harm the lungs and cause cancer. {CAUTION}"
)
DUST_CAUTION = f"Dust from polishing harms the lungs and may burn. {CAUTION}"
