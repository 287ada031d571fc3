"""The colours of static/css/tokens.css hold the contrast that WCAG 2.2 asks for, light and dark."""

from __future__ import annotations

import re

import pytest

from tests.house.test_arrows import ROOT

TOKENS = (ROOT / "static" / "css" / "tokens.css").read_text("utf-8")
WORDS = ("ink", "ash", "brass", "verdigris", "rouge", "steel")
GROUNDS = ("paper", "sheet")


def luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2's definition, of #rrggbb or #rgb."""
    digits = colour.lstrip("#")
    pairs = [digits[i : i + 2] for i in (0, 2, 4)] if len(digits) == 6 else [digit * 2 for digit in digits]
    parts = [int(pair, 16) / 255 for pair in pairs]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast ratio by WCAG 2.2's definition."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def colours(scheme: str) -> dict[str, str]:
    """The raw colours of a scheme by name; the dark one swaps some of the light one's."""
    light, rest = TOKENS.split("@media (prefers-color-scheme: dark)")
    found = dict(re.findall(r"--([a-z]+): (#[0-9a-f]+);", light))
    dark = dict(re.findall(r"--([a-z]+): (#[0-9a-f]+);", rest.split("@media print")[0]))
    return found | dark if scheme == "dark" else found


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # WCAG 2.2 definition of contrast ratio; 4.54, 8.59 and 2.15 as printed in a published table of examples, the
        # rest worked out from the definition (shared/reference.md, section I).
        ("#767676", "#ffffff", 4.542),
        ("#777777", "#ffffff", 4.478),
        ("#949494", "#ffffff", 3.03),
        ("#595959", "#ffffff", 7.005),
        ("#0000ff", "#ffffff", 8.592),
        ("#ff0000", "#0000ff", 2.149),
        ("#000000", "#ffffff", 21.0),
        # Published check value of a general-purpose contrast library.
        ("#e5e5e5", "#aabb00", 1.698093107780376),
    ],
)
def test_the_formula_gives_published_ratios(one: str, other: str, ratio: float) -> None:
    """Our formula is WCAG's, to the printed digits."""
    digits = len(str(ratio).split(".")[1])
    assert contrast(one, other) == pytest.approx(ratio, abs=max(0.5 * 10**-digits, 1e-12))


def test_luminance_of_a_published_colour() -> None:
    """L(255, 129, 0), as the same library's tests give it."""
    assert luminance("#ff8100") == pytest.approx(0.36960513804637335, abs=1e-12)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("word", WORDS)
def test_words_stand_out_on_every_ground(scheme: str, ground: str, word: str) -> None:
    """7:1 for all text colours: what the kiosk asks, and more than AA (4.5:1) for the other faces."""
    found = colours(scheme)
    assert contrast(found[word], found[ground]) >= 7.0


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("filled", ["brass", "verdigris"])
def test_words_on_filled_buttons_stand_out(scheme: str, filled: str) -> None:
    """A button's words have the sheet's colour on brass or verdigris: 4.5:1 at least."""
    found = colours(scheme)
    assert contrast(found["sheet"], found[filled]) >= 4.5
