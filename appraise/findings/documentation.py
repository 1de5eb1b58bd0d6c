"""The catalogue as a page of documentation, `docs/findings.md`; a test keeps the page current.

To write it anew: python -c "from appraise.findings.documentation import catalogue_page as p; print(p(), end='')"
"""

import tomllib

from appraise.files.packaged import packaged
from appraise.findings.entries import Entry, Severity, catalogue

_SEVERITIES = {
    Severity.IMPOSSIBLE: "arithmetic, a missing figure, a date fixed by law. It cannot be answered; it has to be put "
    "right.",
    Severity.CONTRARY: "a report is not final while it is open. It is released by a written reason with initials and "
    "date on the sheet Answers, and is then always printed.",
    Severity.WARN: "answered in writing on the sheet Answers, and printed where fairness asks for it.",
    Severity.NOTE: "for your eyes; nothing needs to be done.",
}


def catalogue_page() -> str:
    """Return the whole page as Markdown."""
    entries = catalogue()
    lines = [
        "# Findings",
        "",
        "Made from the catalogue in `appraise/findings/catalogue`; do not edit by hand. Words in braces are filled in.",
        "Thresholds are settings; each is our default, no source, and none is a rule of law unless one is cited.",
        "",
        "| severity | what it means |",
        "|---|---|",
        *(f"| {severity} | {meaning} |" for severity, meaning in _SEVERITIES.items()),
        "",
        "An answer is keyed by the code, the ids the finding is about, the column key and the mark of the value found;",
        "if the value changes, the answer lapses and says so.",
    ]
    for topic, codes in topics().items():
        lines += ["", f"## {topic.replace('_', ' ').capitalize()}"]
        for code in codes:
            lines += ["", *_section(entries[code])]
    return "\n".join(lines) + "\n"


def topics() -> dict[str, list[str]]:
    """Return the codes of each topic, that is, of each file of the catalogue, in order of its name."""
    return {
        file.stem: sorted(tomllib.loads(file.read_text("utf-8")))
        for file in sorted(packaged("findings", "catalogue").glob("*.toml"))
    }


def _section(entry: Entry) -> list[str]:
    return [
        f"### {entry.code}",
        "",
        f"*{entry.severity}* · {_plain(entry.message)}",
        "",
        f"- What to do: {_plain(entry.action)}",
        f"- Why: {_plain(entry.why)}",
        f"- Rule: {_plain(entry.rule)}",
    ]


def _plain(text: str) -> str:
    """Text that Markdown would take for emphasis or a tag is escaped."""
    return text.replace("*", "\\*").replace("_", "\\_").replace("<", "\\<")
