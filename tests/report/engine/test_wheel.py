"""The built wheel carries the templates and finds them: a report is rendered from it, not from the working copy."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

from support.report_samples import ROOT

_RENDER = """
import io, sys
from datetime import date
import appraise
from appraise.report.engine.find import TemplateFinder, shipped
from appraise.report.engine.house import house
assert appraise.__file__.startswith(sys.argv[1]), appraise.__file__
assert str(shipped()).startswith(sys.argv[1]), shipped()
finder = TemplateFinder.with_own()
house(finder.house())
from appraise.report.engine.section import compiled
names = sorted(file.name for file in (shipped() / "sections").iterdir())
for name in names:
    compiled(finder.section(name.removesuffix(".docx")), name)
print(len(names))
"""


def test_templates_are_found_inside_the_built_wheel(tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", tmp_path],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    (wheel,) = tmp_path.glob("*.whl")
    unpacked = tmp_path / "unpacked"
    with zipfile.ZipFile(wheel) as file:
        names = file.namelist()
        file.extractall(unpacked)
    assert "appraise/templates/house.docx" in names
    assert not [name for name in names if name.startswith("appraise/templates") and name.endswith(".py")]
    ended = subprocess.run(
        [sys.executable, "-c", _RENDER, str(unpacked)],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(unpacked)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ended.returncode == 0, ended.stderr
    assert int(ended.stdout) == len(list((ROOT / "templates" / "sections").glob("*.docx")))
