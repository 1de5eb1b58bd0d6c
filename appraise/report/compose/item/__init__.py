"""The section of one item."""
