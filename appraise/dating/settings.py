"""The conventions by which vague words about dates are read. Our defaults, no source; the report prints them."""

from appraise.model.frozen import frozen
from appraise.model.months import Month


@frozen
class Width:
    """How far a word such as `early` reaches: first and last step, read at its widest and at its narrowest.

    Steps are months 1 to 12 of a year, or years 0 to 9 of a decade; both ends are included.
    """

    outer: tuple[int, int]
    core: tuple[int, int]


@frozen
class Settings:
    """Conventions for one job.

    examined     month of the examination; decides what a two-figure year can mean
    locale       language whose month names are read besides the English ones
    circa_years  `c. 1960` is that year plus or minus so many
    first_year   earliest year a two-figure year can mean: the maker's first year
    """

    examined: Month
    locale: str = "en"
    circa_years: int = 5
    first_year: int = 1900
    early_year: Width = Width((1, 6), (1, 4))
    mid_year: Width = Width((4, 9), (5, 8))
    late_year: Width = Width((7, 12), (9, 12))
    early_decade: Width = Width((0, 4), (0, 3))
    mid_decade: Width = Width((3, 7), (4, 6))
    late_decade: Width = Width((5, 9), (7, 9))
    #: Northern seasons, months of the year.
    spring: Width = Width((3, 6), (4, 5))
    summer: Width = Width((6, 9), (7, 8))
    autumn: Width = Width((9, 12), (10, 11))

    def __hash__(self) -> int:
        # Readings are remembered by settings and words. What differs is nearly always the month or the locale.
        return hash((self.examined, self.locale))

    def width(self, word: str, unit: str) -> Width:
        """Return the width of `early`, `mid` or `late` in a `year` or a `decade`."""
        widths = {
            ("early", "year"): self.early_year,
            ("mid", "year"): self.mid_year,
            ("late", "year"): self.late_year,
            ("early", "decade"): self.early_decade,
            ("mid", "decade"): self.mid_decade,
            ("late", "decade"): self.late_decade,
        }
        return widths[word, unit]

    def season(self, name: str) -> Width:
        """Return the width of spring, summer or autumn; winter has none, it belongs to two years."""
        return {"spring": self.spring, "summer": self.summer, "autumn": self.autumn}[name]
