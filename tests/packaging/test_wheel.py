"""A built wheel, installed elsewhere, runs the demo."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import urllib.request
import venv
import zipfile
from pathlib import Path

import pytest

from tests.house.test_arrows import ROOT


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel built from this checkout, with the build tools that are installed here."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(ROOT)],
        check=True,
        capture_output=True,
    )
    return next(folder.glob("*.whl"))


@pytest.mark.slow
def test_the_wheel_holds_everything_that_runs(wheel: Path) -> None:
    """Templates, static files, the demo and the migrations are inside; tests are not."""
    names = zipfile.ZipFile(wheel).namelist()
    for needed in (
        "archive/share/templates/base.html",
        "archive/share/static/css/tokens.css",
        "archive/share/demo-collection/collection.toml",
        "archive/store/migrations/env.py",
    ):
        assert needed in names
    assert not [name for name in names if name.startswith("tests/")]


@pytest.mark.slow
def test_the_wheel_installed_elsewhere_serves_the_demo(wheel: Path, tmp_path: Path) -> None:
    """In an environment of its own, away from the checkout, `lemel demo` loads and answers over HTTP."""
    place = tmp_path / "elsewhere"
    venv.create(place, with_pip=False, system_site_packages=False)
    python = place / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    # The libraries are those of this environment; Lemel itself comes from the wheel alone.
    site = subprocess.check_output([python, "-c", "import site; print(site.getsitepackages()[0])"], text=True).strip()
    zipfile.ZipFile(wheel).extractall(site)
    libraries = [path for path in sys.path if path.endswith("site-packages")]
    (Path(site) / "libraries.pth").write_text("\n".join(libraries), "utf-8")
    command = [str(python), "-c", "from archive.cli import main; main()", "--home", str(tmp_path / "home"), "demo"]
    with subprocess.Popen(
        [*command, "--port", "0"], cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    ) as process:
        try:
            address = _address(process)
            with urllib.request.urlopen(f"{address}healthz", timeout=20) as answer:
                assert json.load(answer)["collection"] is True
            with urllib.request.urlopen(f"{address}kiosk/", timeout=20) as answer:
                assert "<svg" in answer.read().decode("utf-8")
        finally:
            process.kill()


def _address(process: subprocess.Popen[str]) -> str:
    """The address that the demo prints once it listens; fails with what it said if it ends before."""
    said = []
    assert process.stdout is not None
    for line in process.stdout:
        said.append(line)
        if line.startswith("Open http://"):
            return line.split()[1]
    pytest.fail("".join(said))
