"""Codes that the other methods and the yearly revaluation use are those of their catalogue topics, both ways."""

import re
from pathlib import Path

import appraise.schedule
import appraise.valuing
from appraise.findings.entries import catalogue

TOPICS = ("LOS", "POL", "YRL", "NET", "ALT")
CODE = re.compile(rf'"((?:{"|".join(TOPICS)})-\d\d)"')


def test_codes_in_the_code_are_those_of_the_catalogue() -> None:
    folders = [Path(str(package.__file__)).parent for package in (appraise.valuing, appraise.schedule)]
    files = [file for folder in folders for file in folder.rglob("*.py")]
    used = {code for file in files for code in CODE.findall(file.read_text("utf-8"))}
    listed = {code for code in catalogue() if code[:3] in TOPICS}
    assert used == listed
