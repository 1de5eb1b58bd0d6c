"""Checks: each is one small function in a file of its topic, found by itself, that returns findings and never raises
for what the user typed.

Left out: faults of reading the workbook, of computing a value and of dating, which those parts report themselves.
"""
