"""The wheel holds all that a report needs: templates, rules, texts."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parent.parent


def test_a_report_is_rendered_from_the_built_wheel(tmp_path: Path) -> None:
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as package:
        names = set(package.namelist())
        package.extractall(tmp_path / "site")
    assert "appraise/templates/house.docx" in names
    assert not [name for name in names if name.startswith("appraise/templates/") and name.endswith(".py")]

    where = "import appraise, sys; sys.stdout.write(appraise.__file__)"
    # The site folder comes before the working copy, and the working folder is neither.
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "site")}
    found = subprocess.run([sys.executable, "-c", where], env=environment, cwd=tmp_path, capture_output=True, text=True)
    assert found.stdout.startswith(str(tmp_path))
    job = ROOT / "workbooks_demo" / "estate" / "estate.xlsx"
    command = [sys.executable, "-m", "appraise", "report", str(job), "--out", str(tmp_path / "out")]
    done = subprocess.run(command, env=environment, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert done.returncode == 0
    assert (tmp_path / "out" / "estate-report.docx").stat().st_size > 100_000
