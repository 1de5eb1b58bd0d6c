"""`python -m bench`: measures ours and the bases in one interleaved run and prints the table."""

import argparse
from datetime import datetime
from pathlib import Path

from bench.inputs import Inputs
from bench.lines import lines
from bench.measuring import measure
from bench.table import table


def main() -> None:
    """Make what is missing of the inputs, measure, print the table and keep it in the folder after every round."""
    asked = _arguments()
    inputs = Inputs(asked.folder.resolve())
    chosen = [one for one in lines(inputs, tuple(sorted(set(asked.size)))) if asked.only in one.name]
    inputs.make(word for one in chosen for command in (one.ours, one.base or ()) for word in command)
    day = datetime.now().astimezone().date().isoformat()
    rounds = measure(chosen, asked.rounds, lambda words: print(words, flush=True))
    text = ""
    for number, results in enumerate(rounds, 1):
        text = "\n".join(table(results, day=day, rounds=number))
        (inputs.folder / "table.md").write_text(f"{text}\n", encoding="utf-8")
    print(f"\n{text}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m bench", description=__doc__)
    parser.add_argument(
        "--size",
        type=int,
        nargs="+",
        choices=(1, 10, 100),
        default=[1, 10, 100],
        help="percent of 10,000 items; 100 takes minutes a round",
    )
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--only", default="", help="only lines whose name holds this")
    parser.add_argument(
        "--folder", type=Path, default=Path("build/bench"), help="where inputs and outputs are kept from run to run"
    )
    return parser.parse_args()


if __name__ == "__main__":
    main()
