"""What is measured of ours beyond whole commands: one small script each."""
