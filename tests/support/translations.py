"""What a translation was made from: a mark of each English original, so that a text whose original changed is told.

After translating, write the marks anew:  PYTHONPATH=tests python -m support.translations
"""

import hashlib
import json
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from appraise.records import vocabulary
from appraise.records.vocabulary import Use
from appraise.report.compose.uses import return_figures, transfer
from appraise.rules.ages import age_rules
from appraise.rules.thresholds import threshold
from appraise.rules.uses import use_rules
from appraise.rules.value_types import definitions
from appraise.wording.texts import ENGLISH, languages, originals, translations, word_key

MARKS = Path(__file__).parents[1] / "wording" / "translated_from.json"
TRANSLATED = tuple(code for code in languages() if code != ENGLISH)


def rule_originals() -> dict[str, str]:
    """Return the English texts of rules by the key of their translation."""
    found = {}
    for one in definitions():
        found[f"rule.{one.slot}.statement"] = one.statement
        found[f"rule.{one.slot}.treatment"] = one.treatment
    for rule in age_rules():
        found[f"rule.age.{rule.id}"] = rule.statement
    for name in (*transfer.BY_SUM, transfer.ATTACH_ART, *return_figures.LIMITS):
        # The words of a limit stay the same when its figure changes.
        found[f"rule.threshold.{name}"] = threshold(name, date(2025, 1, 1)).statement
    for use in Use:
        rules = use_rules(use)
        found[f"rule.caution.{use}"] = rules.caution
        for element in rules.elements:
            key = f"rule.element.{element.id}"
            # Two uses may word an element of the same name differently; the later one has the use in its key.
            if found.setdefault(key, element.statement) != element.statement:
                found[f"rule.element.{use}.{element.id}"] = element.statement
    return found


def word_originals() -> dict[str, str]:
    """Return the English words of all closed lists by the key of their translation."""
    from enum import StrEnum

    from appraise.findings.entries import Severity
    from appraise.rules.cited import Seen

    lists = [one for one in vars(vocabulary).values() if isinstance(one, type) and issubclass(one, StrEnum)]
    return {word_key(word): str(word) for kind in (*lists, Severity, Seen) for word in kind}


def everything() -> dict[str, str]:
    """Return every English text that a translation has to have, by key."""
    return {**originals(), **rule_originals(), **word_originals()}


def mark(text: str) -> str:
    """Return the short mark of a text."""
    return hashlib.sha256(text.encode()).hexdigest()[:8]


def marks() -> Mapping[str, Mapping[str, str]]:
    """Return the marks of the originals each translation was made from, by language and key."""
    found: Mapping[str, Mapping[str, str]] = json.loads(MARKS.read_text("utf-8"))
    return found


def main() -> None:
    """Write the marks of what is translated now."""
    current = everything()
    made = {
        code: {key: mark(current[key]) for key in sorted(translations(code)) if key in current} for code in TRANSLATED
    }
    MARKS.write_text(json.dumps(made, indent=0, ensure_ascii=False) + "\n", "utf-8")


if __name__ == "__main__":
    main()
