"""The twenty mistakes that hurt most in practice are all looked for, each at least as gravely as it deserves.

Common practice of the trade, no source. W and S: warn and stop.
"""

import pytest

from appraise.findings.entries import Severity, catalogue

MISTAKES = {
    "effective date after the report date": ("S", ["DAY-01"]),
    "asking prices as if paid in a fair market value": ("W", ["CPR-16", "CMP-10"]),
    "comparison after the effective date without a reason": ("S", ["CMP-09"]),
    "insurance value in an estate report, or the reverse": ("S", ["ASG-04"]),
    "refinished subject, original comparisons only": ("W", ["CPR-02"]),
    "missing photograph of the item": ("S", ["PHO-01"]),
    "missing photograph of serial or defect": ("W", ["PHO-02", "PHO-04"]),
    "same serial twice": ("S", ["ITM-02"]),
    "fee based on value or outcome": ("S", ["ASG-02", "ASG-03"]),
    "certification unsigned, undated, or before the inspection": ("S", ["PPL-01", "DAY-02", "DAY-04"]),
    "hypothetical condition not disclosed": ("S", ["ASM-01"]),
    "stale inspection": ("W", ["DAY-16"]),
    "currency without a rate": ("S", ["CMP-31"]),
    "one comparison for two unlike items": ("W", ["CPR-08"]),
    "a single comparison carries the value": ("W", ["VAL-11", "VAL-12"]),
    "adjustments beyond reason or of the wrong sign": ("W", ["CMP-07", "CMP-08", "CPR-05", "CPR-06"]),
    "market levels mixed without an adjustment": ("W", ["CPR-03"]),
    "sold before made, part newer than the object marked original": ("W", ["SAL-11", "DAY-21", "PRT-03"]),
    "double counting": ("W", ["PRT-09", "CPR-14", "SCH-04"]),
    "premium or tax basis wrong": ("S", ["ASG-08", "CMP-25", "CMP-26", "SAL-06"]),
    "schedule arithmetic": ("W", ["YRL-31", "YRL-32", "SCH-02", "SCH-03"]),
}


@pytest.mark.parametrize(("grave", "codes"), MISTAKES.values(), ids=MISTAKES)
def test_each_is_in_the_catalogue_and_grave_enough(grave: str, codes: list[str]) -> None:
    for code in codes:
        severity = catalogue()[code].severity
        assert severity.stops or (grave == "W" and severity is Severity.WARN)
