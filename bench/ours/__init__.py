"""What is measured of ours beyond whole commands: one small script each."""

import gc

from appraise.cli import GARBAGE

# As in the command itself.
gc.set_threshold(*GARBAGE)
