"""Whole-or-nothing writing, zips, hashes, a lock for each output folder, the one exception for an unusable file."""
