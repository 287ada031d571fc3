"""A pack: the same bytes for the same files, and modules that work as one plain script."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
from pathlib import Path
from zipfile import ZipFile

import pytest

from archive.exchange.pack import plain_script, zip_of

MODULES = {
    "first/page.js": 'import { told } from "./words.js";\nimport "../other/side.js";\n\nfound.push(told("page"));\n',
    "first/words.js": 'import {\n  loud,\n} from "../other/side.js";\n'
    + "const name = 1;\nexport function told(what) {\n  return loud(`${what} ${name}`);\n}\n",
    "other/side.js": "const name = 2;\nexport const loud = (words) => `${words} ${name}`;\n"
    "found.push(`side ${name}`);\n",
}


def test_the_same_files_give_the_same_bytes() -> None:
    """Whatever the order in which they are handed over; names are in order and readable by all."""
    files = {"index.html": b"<p>", "sounds/voice-01.mp3": b"\xff" * 400, "a.css": b"p{}"}
    packed = zip_of(files)
    assert packed == zip_of(dict(reversed(files.items())))
    with ZipFile(io.BytesIO(packed)) as opened:
        assert opened.namelist() == sorted(files)
        assert {name: opened.read(name) for name in files} == files
        assert {entry.date_time[0] for entry in opened.infolist()} == {1980}


def test_a_module_that_is_missing_is_no_script() -> None:
    """What is imported must be there."""
    with pytest.raises(KeyError):
        plain_script("first/page.js", {"first/page.js": MODULES["first/page.js"]})


def test_no_word_of_modules_is_left() -> None:
    """Each module comes once, after what it needs."""
    script = plain_script("first/page.js", MODULES)
    assert "import " not in script
    assert "export " not in script
    assert script.count("const name = 2") == 1
    assert script.index("const name = 2") < script.index("const name = 1") < script.index('told("page")')


@pytest.mark.skipif(shutil.which("node") is None, reason="node is not installed")
def test_modules_do_the_same_in_one_script(tmp_path: Path) -> None:
    """The same name in two modules stays two names."""
    script = f"const found = [];\n{plain_script('first/page.js', MODULES)}console.log(JSON.stringify(found));"
    (tmp_path / "script.cjs").write_text(script, "utf-8")
    said = subprocess.run(
        ["node", str(tmp_path / "script.cjs")], capture_output=True, text=True, check=True, timeout=30
    )
    assert json.loads(said.stdout) == ["side 2", "page 1 2"]
