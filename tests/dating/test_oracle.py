"""Windows of random families of evidence against a month-by-month oracle that tries every subset."""

from random import Random
from typing import Any

import pytest
from support.dating import as_expected, window
from support.dating_oracle import Evidence, bits, random_words, solve, use, with_lag

FAMILIES = 2400
BATCHES = 12
EXAMINED = {"1978-06": 12 * 1978 + 5, "1961-03": 12 * 1961 + 2}


def _words(random: Random) -> tuple[dict[str, Any], int, int]:
    """Return the fields of one use or date with its outer and inner months."""
    if random.random() < 0.5:
        text, outer, core = random_words(random)
        return {"date": text}, bits(outer), bits(core)
    start = random_words(random) if random.random() < 0.75 else None
    end = random_words(random) if start is None or random.random() < 0.5 else None
    fields = {name: one[0] for name, one in (("from", start), ("to", end)) if one}
    return fields, *use(start[1] if start else None, end[1] if end else None)


def _line(random: Random, name: str) -> tuple[dict[str, Any], Evidence]:
    status = random.choices(("original", "unverified", "replaced"), (8, 3, 1))[0]
    line: dict[str, Any] = {"id": name, "status": status, "strength": random.randint(1, 4)}
    readings: dict[str, int] = {}
    form = random.choices(("plain", "part", "after", "alt"), (6, 2, 1, 3))[0]
    if form in ("part", "after"):
        text, months, _ = random_words(random)
        lag = (random.randint(-2, 6), random.choice((None, 12, 24)))
        outer, inner = with_lag(months, form, *lag)
        line |= {"role": form, "lag": list(lag), "date": text}
    elif form == "alt":
        outer = inner = 0
        line["alt"] = []
        for place in range(random.randint(2, 3)):
            fields, wide, narrow = _words(random)
            line["alt"].append({"name": f"r{place}", **fields})
            readings[f"r{place}"] = wide
            outer, inner = outer | wide, inner | narrow
    else:
        fields, outer, inner = _words(random)
        line |= fields
    return line, Evidence(name, outer, inner, line["strength"], status == "unverified", status == "replaced", readings)


def _comparable(found: dict[str, Any]) -> dict[str, Any]:
    return {
        **found,
        "conflicts": sorted(sorted(one) for one in found["conflicts"]),
        "consistent": sorted(
            ({**one, "keep": sorted(one["keep"])} for one in found["consistent"]), key=lambda one: one["keep"]
        ),
        "best": sorted(sorted(one) for one in found["best"]),
    }


@pytest.mark.parametrize("batch", range(BATCHES))
def test_random_families_agree_with_the_oracle(batch: int) -> None:
    """Verdict, windows, conflicts, explanations, best, later work and readings left: all of them, on every family."""
    random = Random(f"date windows {batch}")
    verdicts = set()
    for _ in range(FAMILIES // BATCHES):
        examined = random.choice(tuple(EXAMINED))
        lines = [_line(random, f"e{place}") for place in range(random.randint(1, 5))]
        case = {"id": "R", "examined": examined, "evidence": [line for line, _ in lines]}
        expected = solve([evidence for _, evidence in lines], EXAMINED[examined])
        assert _comparable(as_expected(window(case))) == expected, case
        verdicts.add(expected["verdict"])
    assert verdicts == {"firm", "edge", "conflict"}, "every verdict is met in every batch"
