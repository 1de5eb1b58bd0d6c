"""Measurements of speed and memory against plain library use. `python -m bench --help`."""
