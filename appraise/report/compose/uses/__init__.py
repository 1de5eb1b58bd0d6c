"""Sections that only some uses have. Each function returns a chapter; without blocks the section is left out."""
