"""Codes that valuing uses and entries of its three topics are the same; every sentence can be filled."""

import re
from pathlib import Path

import appraise.valuing
from appraise.findings.entries import catalogue

CODE = re.compile(r'"((?:CMP|TBL|VAL)-\d\d)"')


def test_codes_in_the_code_are_those_of_the_catalogue() -> None:
    folder = Path(appraise.valuing.__file__).parent
    used = {code for file in folder.rglob("*.py") for code in CODE.findall(file.read_text("utf-8"))}
    listed = {code for code in catalogue() if code[:3] in ("CMP", "TBL", "VAL")}
    assert used == listed
