"""Measures speed and memory against plain library use. `python -m bench` is the one command; see DEVELOPERS.md."""
