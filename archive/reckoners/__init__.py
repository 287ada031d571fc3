"""Ready reckoners: pure sums of the trade, each with units, limits and sources; knows no records.

To ask one: `from archive.reckoners.registry import reckon`; `reckon("metal/fineness", {"fineness": "18 ct"})`.

To add a reckoner (metal/fineness.py is the model):

1. Make `archive/reckoners/ROOM/SUBJECT.py`. First the pure functions: named for the quantity, plain floats, the unit in
   each parameter's name (`fall_m`), a docstring with formula, units, limits and source. Constants are named.
2. Then `_work(given: Given) -> Worked`: takes numbers in the units of its inputs (`given.number("fall")`,
   `given.maybe("x")` if optional, `given.word("metal")`), calls the functions, and hands back values by output key,
   the steps as sentences with the figures in them, warnings, a comparison for people, and keys of further sources.
   An output left out of `values` is a gap and is not shown. Inputs that do not go together: `raise refuse(key, found,
   allowed)`. Beyond what the method is good for: raise `archive.errors.OutOfRange`, saying what would be needed.
   It must be pure: it is worked again over the corners of everything that is "about".
3. Then the `Reckoner(...)` value: inputs by `number(...)`, `choice(...)`, `text(...)`; outputs by `Output(key, title,
   unit, decimals)` or `words(key, title)`; `sources` by key, `good_for` in sentences. Every number has a range (refused
   beyond) and, where the method is known for less, a `sound` range (warned outside).
   A key has no unit in it; `fall_m=1.7` is taken as `fall=1.7 m` by itself.
4. New units go in measures.py, new sources in sources.csv (with their mark; never invent one).
5. Put it in `RECKONERS` of the room's `__init__.py`; a new room also in `_ROOMS` of registry.py.
6. Add its checks to `CHECKS` in `tests/published/test_ROOM.py` (printed figures as strings: the tolerance is half of
   the last digit). tests/reckoners/test_whole.py fails until it has a check, a source, a range and a unit.

Files: shape.py (the shape), quantities.py (how people write), reading.py (fields and faults), reckoning.py (ranges),
telling.py (lines and data), measures.py, gauges.py, money.py, sources.py with sources.csv, registry.py.
"""
