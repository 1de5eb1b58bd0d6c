"""The command `appraise`, also as `python -m appraise`."""

import sys

from appraise import __version__


def main() -> None:
    """Run the command. The version alone is told without loading anything."""
    if sys.argv[1:] == ["--version"]:
        print(f"appraise {__version__}")
        return
    from appraise.cli import main as run

    run()


if __name__ == "__main__":
    main()
