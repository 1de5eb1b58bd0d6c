"""Writes the list of all names a template may use, read from the views themselves."""

import dataclasses
import types
import typing
from typing import Any

from appraise.report.engine.environment import open_names
from appraise.report.engine.views import Edges
from appraise.report.item_view import ItemView
from appraise.report.view import ReportView

#: The views a template is given, by the name it has there.
SCHEMA: dict[str, type] = {"r": ReportView, "item": ItemView}

_HEAD = """# Names in templates

Written by `python -m templates_source.build`; do not edit. How they are used stands in [restyle.md](restyle.md).

A section is given `r`, the report; a section that is repeated for each item also `item`. The house document's headers
and footers are given `r` and `edges`. "Or nothing": ask with `{%p if ... is not none %}` before printing a part of it.

"""


def name_list() -> str:
    """Return the list as Markdown: each view, its names, what each holds."""
    waiting: list[type] = [*SCHEMA.values(), Edges]
    given = {kind: name for name, kind in {**SCHEMA, "edges": Edges}.items()}
    done: list[type] = []
    text = _HEAD
    while waiting:
        kind = waiting.pop(0)
        if kind in done:
            continue
        done.append(kind)
        title = f"`{given[kind]}` ({kind.__name__})" if kind in given else kind.__name__
        text += f"## {title}\n\n| name | holds |\n|---|---|\n"
        hints = typing.get_type_hints(kind)
        for one in dataclasses.fields(kind):
            if one.name in open_names(kind):
                text += f"| `{one.name}` | {_held(hints[one.name])} |\n"
                waiting += [inner for inner in _views(hints[one.name]) if inner not in done]
        text += "\n"
    return text.rstrip() + "\n"


def _held(kind: Any) -> str:
    if isinstance(kind, types.UnionType):
        parts = [_held(one) for one in typing.get_args(kind) if one is not type(None)]
        return " or ".join([*parts, *(["nothing"] if type(None) in typing.get_args(kind) else [])])
    if typing.get_origin(kind) is tuple:
        return f"list of: {_held(typing.get_args(kind)[0])}"
    plain = {str: "text", int: "whole number", bool: "yes or no"}
    return plain.get(kind) or getattr(kind, "__name__", "value")


def _views(kind: Any) -> list[type]:
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return [kind]
    return [inner for one in typing.get_args(kind) for inner in _views(one)]
