"""The units people write, by family, with exact factors to the family's own base."""

from __future__ import annotations

from dataclasses import dataclass

INCH_MM = 25.4
POUND_G = 453.59237
GRAIN_G = POUND_G / 7000
STANDARD_GRAVITY_M_PER_S2 = 9.80665
_LBF_N = POUND_G / 1000 * STANDARD_GRAVITY_M_PER_S2
_TONF_N = 2240 * _LBF_N


@dataclass(frozen=True)
class Unit:
    """A unit: base value = value * factor + offset. `spellings` are other ways to write it."""

    family: str
    symbol: str
    factor: float
    spellings: tuple[str, ...] = ()
    offset: float = 0.0

    def to_base(self, value: float) -> float:
        """The value in the base of the family."""
        return value * self.factor + self.offset

    def from_base(self, value: float) -> float:
        """The base value in this unit."""
        return (value - self.offset) / self.factor


# Symbols are unique over all families; spellings are looked up within one family, so "s" may be a second or a shilling.
# Tons and hundredweights are long ones; a pint and a gallon are imperial.
_UNITS = (
    Unit("length", "mm", 1, ("millimetre", "millimetres", "millimeters")),
    Unit("length", "µm", 1e-3, ("micrometre", "micrometres", "micron", "microns")),
    Unit("length", "cm", 10, ("centimetre", "centimetres")),
    Unit("length", "m", 1000, ("metre", "metres")),
    Unit("length", "in", INCH_MM, ("inch", "inches", '"', "''", "ins")),
    Unit("length", "thou", INCH_MM / 1000, ("mil", "mils", "thousandths", "thousandth")),
    Unit("length", "ft", 12 * INCH_MM, ("foot", "feet", "'")),
    Unit("length", "yd", 36 * INCH_MM, ("yard", "yards")),
    Unit("mass", "g", 1, ("gram", "grams", "gramme", "grammes")),
    Unit("mass", "mg", 1e-3, ("milligram", "milligrams")),
    Unit("mass", "kg", 1000, ("kilogram", "kilograms", "kilo", "kilos")),
    Unit("mass", "t", 1e6, ("tonne", "tonnes")),
    Unit("mass", "gr", GRAIN_G, ("grain", "grains")),
    Unit("mass", "dwt", 24 * GRAIN_G, ("pennyweight", "pennyweights")),
    Unit("mass", "oz t", 480 * GRAIN_G, ("ozt", "oz troy", "troy oz", "troy ounce", "troy ounces")),
    Unit("mass", "lb t", 5760 * GRAIN_G, ("lbt", "lb troy", "troy lb", "troy pound", "troy pounds")),
    Unit("mass", "oz", POUND_G / 16, ("oz av", "ounce", "ounces")),
    Unit("mass", "lb", POUND_G, ("lbs", "pound", "pounds")),
    Unit("mass", "qr", 28 * POUND_G, ("quarter", "quarters")),
    Unit("mass", "cwt", 112 * POUND_G, ("hundredweight", "hundredweights")),
    Unit("mass", "ton", 2240 * POUND_G, ("tons", "long ton", "long tons")),
    Unit("mass", "gem ct", 0.2, ("metric carat", "gem carat", "gem carats")),
    Unit("area", "mm²", 1, ("sq mm",)),
    Unit("area", "cm²", 100, ("sq cm",)),
    Unit("area", "dm²", 1e4, ("sq dm",)),
    Unit("area", "m²", 1e6, ("sq m",)),
    Unit("area", "in²", INCH_MM**2, ("sq in",)),
    Unit("area", "ft²", (12 * INCH_MM) ** 2, ("sq ft",)),
    Unit("volume", "mL", 1, ("millilitre", "millilitres", "cc", "cm³")),
    Unit("volume", "L", 1000, ("litre", "litres")),
    Unit("volume", "m³", 1e6, ("cubic metre", "cubic metres")),
    Unit("volume", "pint", 568.26125, ("pints", "pt")),
    Unit("volume", "gal", 4546.09, ("gallon", "gallons")),
    Unit("force", "N", 1, ("newton", "newtons")),
    Unit("force", "kN", 1000, ("kilonewton", "kilonewtons")),
    Unit("force", "kgf", STANDARD_GRAVITY_M_PER_S2),
    Unit("force", "lbf", _LBF_N, ("pound-force",)),
    Unit("force", "tonf", _TONF_N, ("ton-force", "tons-force", "ton force", "tons force", "tons", "ton")),
    Unit("energy", "J", 1, ("joule", "joules")),
    Unit("energy", "kJ", 1000, ("kilojoule", "kilojoules")),
    Unit("energy", "ft lbf", 12 * INCH_MM / 1000 * _LBF_N, ("ft lb", "ft-lb", "foot pound", "foot pounds")),
    Unit("power", "W", 1, ("watt", "watts")),
    Unit("power", "kW", 1000, ("kilowatt", "kilowatts")),
    Unit("power", "hp", 550 * 12 * INCH_MM / 1000 * _LBF_N, ("horsepower",)),
    Unit("stress", "N/mm²", 1, ("MPa", "N per mm²")),
    Unit("stress", "kPa", 1e-3),
    Unit("stress", "Pa", 1e-6),
    Unit("stress", "GPa", 1000),
    Unit("stress", "psi", _LBF_N / INCH_MM**2, ("lbf/in²", "lb/in²")),
    Unit("stress", "ksi", 1000 * _LBF_N / INCH_MM**2),
    Unit("stress", "tonf/in²", _TONF_N / INCH_MM**2, ("ton/in²", "tons/in²", "tsi")),
    Unit("temperature", "°C", 1, ("C", "deg C", "celsius", "degrees C", "degrees celsius")),
    Unit("temperature", "°F", 5 / 9, ("F", "deg F", "fahrenheit", "degrees F", "degrees fahrenheit"), -160 / 9),
    Unit("temperature", "K", 1, ("kelvin", "kelvins"), -273.15),
    Unit("time", "s", 1, ("sec", "secs", "second", "seconds")),
    Unit("time", "min", 60, ("mins", "minute", "minutes")),
    Unit("time", "h", 3600, ("hr", "hrs", "hour", "hours")),
    Unit("time", "day", 86400, ("days",)),
    Unit("time", "week", 7 * 86400, ("weeks", "wk")),
    Unit("time", "year", 365.25 * 86400, ("years", "yr", "yrs", "y")),
    Unit("speed", "m/s", 1, ("m per s", "metres a second")),
    Unit("speed", "ft/s", 12 * INCH_MM / 1000, ("ft per s", "feet a second")),
    Unit("speed", "mph", 1760 * 36 * INCH_MM / 1000 / 3600, ("miles an hour",)),
    Unit("density", "g/cm³", 1, ("g/cc", "g/mL", "kg/L")),
    Unit("density", "kg/m³", 1e-3),
    Unit("density", "lb/in³", POUND_G / (INCH_MM / 10) ** 3),
    Unit("share", "%", 1, ("per cent", "percent")),
    Unit("share", "fraction", 100, ("of the whole",)),
    Unit("fineness", "‰", 1, ("parts in a thousand", "per mille", "fine")),
    Unit("fineness", "carat", 1000 / 24, ("ct", "kt", "k", "carats")),
    Unit("fineness", "% fine", 10, ("%", "per cent", "percent")),
    Unit("count", "pieces", 1, ("piece", "pcs", "blanks", "strokes", "off")),
    Unit("count", "dozen", 12, ("doz", "dozens")),
    Unit("count", "score", 20, ("scores",)),
    Unit("count", "gross", 144),
    Unit("count", "great gross", 1728),
    Unit("rate", "a minute", 1, ("per minute", "per min", "/min", "spm", "a min", "strokes a minute")),
    Unit("rate", "a second", 60, ("per second", "/s", "per s", "rev/s", "turns a second")),
    Unit("rate", "an hour", 1 / 60, ("per hour", "/h", "per h")),
    Unit("people", "people", 1, ("person", "workers", "hands", "worker", "hand")),
    Unit("machines", "machines", 1, ("machine", "press", "presses")),
    Unit("lots", "lots", 1, ("lot",)),
    Unit("ratio", "times", 1, ("x",)),
    Unit("gauge numbers", "gauge numbers", 1, ("numbers",)),
    Unit("Rockwell hardness", "HRC", 1),
    Unit("Vickers hardness", "HV", 1),
    Unit("angle", "°", 1, ("deg", "degrees")),
    Unit("level", "dB", 1, ("dB(A)", "dBA", "dB(C)", "decibels")),
    Unit("acceleration", "m/s²", 1),
    Unit("current", "A", 1, ("amp", "amps", "ampere", "amperes")),
    Unit("current density", "A/dm²", 1),
    Unit("current density", "A/ft²", 1 / (3.048**2), ("asf",)),
    Unit("concentration", "g/L", 1),
    Unit("airborne", "mg/m³", 1),
    Unit("airborne", "µg/m³", 1e-3),
    Unit("parts", "ppm", 1),
    Unit("rows", "rows", 1, ("row",)),
    Unit("blows", "blows", 1, ("blow",)),
    Unit("lifts", "lifts", 1, ("lift",)),
    Unit("points", "points", 1, ("point",)),
    Unit("inertia", "kg m²", 1, ("kgm²",)),
    Unit("charge", "A h", 1, ("Ah", "ampere-hours")),
    Unit("molar mass", "g/mol", 1),
    Unit("money", "d", 1, ("pence", "penny", "old pence")),
    Unit("money", "shilling", 12, ("s", "shillings")),
    Unit("money", "£", 240, ("pound", "pounds")),
    Unit("money", "guinea", 252, ("guineas", "gn", "gns")),
    Unit("money", "p", 2.4, ("new pence",)),
)
_BY_SYMBOL = {unit.symbol: unit for unit in _UNITS}
_PLAIN = str.maketrans({"²": "2", "³": "3", "μ": "µ", ".": "", "^": ""})


def plain(spelling: str) -> str:
    """A spelling without case, full stops and raised figures, so that "Lbs." finds "lbs" and "mm2" finds "mm²"."""
    return " ".join(spelling.translate(_PLAIN).lower().split()).replace("µ", "u")


_BY_SPELLING = {(u.family, plain(word)): u for u in _UNITS for word in (u.symbol, *u.spellings)}


def unit_of(symbol: str) -> Unit:
    """The unit with this symbol; a KeyError is a mistake in a reckoner, never in what people wrote."""
    return _BY_SYMBOL[symbol]


def unit_written(spelling: str, family: str) -> Unit | None:
    """The unit of a family that people mean by a spelling, or None."""
    return _BY_SPELLING.get((family, plain(spelling)))


def family_of_spelling(spelling: str) -> str | None:
    """Some family that knows the spelling: used only to tell what was written in the wrong place."""
    return next((family for family, word in _BY_SPELLING if word == plain(spelling)), None)


def units_in(family: str) -> tuple[str, ...]:
    """The symbols of a family, its base first."""
    return tuple(unit.symbol for unit in _UNITS if unit.family == family)


def convert(value: float, from_symbol: str, to_symbol: str) -> float:
    """The value in another unit of the same family."""
    source, target = unit_of(from_symbol), unit_of(to_symbol)
    if source.family != target.family:
        raise ValueError(f"{from_symbol} is {source.family}, {to_symbol} is {target.family}")
    return target.from_base(source.to_base(value))
