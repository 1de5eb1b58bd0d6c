"""Builds the Word templates that are shipped: `python -m templates_source.build` writes them to `templates/`."""
