"""All hostile cases."""

from functools import cache

from support.hostile.case import Case
from support.hostile.contents import content_cases
from support.hostile.packages import package_cases
from support.hostile.pictures import picture_cases
from support.hostile.sheets import sheet_cases
from support.hostile.templates import template_cases


@cache
def corpus() -> tuple[Case, ...]:
    """Return every case, each (attack, part) once."""
    return (*package_cases(), *sheet_cases(), *content_cases(), *picture_cases(), *template_cases())
