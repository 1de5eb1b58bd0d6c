"""`python -m appraise`: the same as the command `appraise`."""

from appraise.cli import main

if __name__ == "__main__":
    main()
