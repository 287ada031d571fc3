"""A mirror, not a gate: the sizes of the house beside what style.md aims at, printed by the test run."""

from __future__ import annotations

import textwrap

import pytest

from tests.house.sizes import files, functions, row, share
from tests.house.test_arrows import PACKAGE, ROOT, modules


def test_what_is_measured_is_what_is_there() -> None:
    """By hand: a docstring and decorators are left out, an elif is no deeper than its if."""
    source = textwrap.dedent(
        '''
        @cached
        def one(a):
            """Two lines of
            docstring."""
            for x in a:
                if x:
                    return x
                elif a:
                    with x:
                        pass
            return None

        def two(): pass
        '''
    )
    first, second = functions(source, "here")
    assert (first.where, first.lines, first.nesting) == ("here::one", 8, 3)
    assert (second.lines, second.nesting) == (1, 0)
    assert [share([5, 1, 4, 2, 3], part) for part in (0.5, 0.9, 1.0)] == [3, 5, 5]


def test_a_report_of_sizes(capsys: pytest.CaptureFixture[str]) -> None:
    """Every kind of file is measured; what is over its aim is named, the largest first."""
    code = files(PACKAGE, "*.py")
    inside = [
        size for path in modules() for size in functions(path.read_text("utf-8"), path.relative_to(ROOT).as_posix())
    ]
    shown = {
        "files": (code, 400),
        "functions": (inside, 60),
        "templates": (files(ROOT / "templates", "*.html"), 80),
        "scripts": (files(ROOT / "static", "*.js"), 150),
        "styles": (files(ROOT / "static", "*.css"), 120),
        "tests": (files(ROOT / "tests", "*.py"), 400),
    }
    deep = [size for size in inside if size.nesting > 3]
    with capsys.disabled():
        print(f"\n\n  {'':<12}{'how many':>5}{'median':>5}  9 of 10  largest")
        print("\n".join(row(name, sizes, aim) for name, (sizes, aim) in shown.items()))
        print(f"  nesting over 3: {len(deep)}", *(f"      {size.nesting}  {size.where}" for size in deep[:5]), sep="\n")
        written = sum(size.lines for size in code)
        print(f"  tests to code: {sum(size.lines for size in shown['tests'][0]) / written:.2f}\n")
    assert all(sizes for sizes, _aim in shown.values())
