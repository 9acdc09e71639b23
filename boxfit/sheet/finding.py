"""A shop's rule that a flat does not keep: where, by how much, and what would keep it."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Code = Literal[
    "blank larger than the sheet",
    "radius too tight",
    "flange too short",
    "fold longer than the brake",
    "no relief",
    "hole too small",
    "hole to edge",
    "hole to bend",
    "hole to hole",
    "hole cut twice",
    "contour cut twice",
    "contour not closed",
    "contour crosses itself",
    "opening past the edge",
]

_REMEDIES: dict[Code, str] = {
    "blank larger than the sheet": "a shop with larger sheets (fold_shop.sheet), or more and smaller boxes",
    "radius too tight": "an inside radius of {limit:.4g} (box.bend_radius), or a sheet that bends tighter",
    "flange too short": "{lack:.4g} mm more of it (box.flange for a tray's), or a shop with a smaller die",
    "fold longer than the brake": "a shop with a longer brake (fold_shop.brake), or more and smaller boxes",
    "no relief": "a cut beside the fold's end, as wide as the sheet is thick and past the bend",
    "hole too small": "a hole of {limit:.4g} mm, or drill it by hand",
    "hole to edge": "{lack:.4g} mm more between them: move it in, or a wider part (box.flange on a rim)",
    "hole to bend": "{lack:.4g} mm further off the fold, or drill it once folded",
    "hole to hole": "{lack:.4g} mm further apart, or drill one by hand",
    "hole cut twice": "leave one of the two out",
    "contour cut twice": "leave one of the two out",
    "contour not closed": "draw it as one closed line round an area",
    "contour crosses itself": "do not cut it; a smaller inside radius (box.bend_radius) may do",
    "opening past the edge": "move it in, or cut it out of the outer contour",
}


@dataclass(frozen=True)
class Finding:
    """A rule that a flat does not keep: where, the figure found and the one asked for [mm].

    Both figures are 0 where nothing is measured.
    """

    code: Code
    part: str
    place: str
    figure: float
    limit: float

    @property
    def remedy(self) -> str:
        """What would keep the rule."""
        return _REMEDIES[self.code].format(limit=self.limit, lack=self.limit - self.figure)

    @property
    def text(self) -> str:
        """As a sentence.

        >>> Finding("hole to hole", "lid", "at 5, 5", 2.0, 3.75).text
        'lid: hole to hole: at 5, 5: 2 mm, 3.75 asked for; try: 1.75 mm further apart, or drill one by hand'
        """
        return f"{self.part}: {self.code}: {self.place}{self._figures}; try: {self.remedy}"

    @property
    def _figures(self) -> str:
        over = self.figure > self.limit
        asked = "at most" if over else "asked for"
        if self.figure == self.limit == 0.0:
            return ""
        limit = f"{asked} {self.limit:.4g}" if over else f"{self.limit:.4g} {asked}"
        return f": {self.figure:.4g} mm, {limit}"


def told_once(findings: Sequence[Finding]) -> tuple[str, ...]:
    """The findings as sentences; what differs in its place only, in one part, is told once, with how often.

    >>> from dataclasses import replace
    >>> one = Finding("hole too small", "lid", "at 5, 5", 1.0, 2.0)
    >>> told_once((one, replace(one, place="at 9, 5")))
    ('lid: hole too small: at 5, 5 and 1 more: 1 mm, 2 asked for; try: a hole of 2 mm, or drill it by hand',)
    """

    def alike(one: Finding) -> tuple[str, str, str, str]:
        return (one.code, one.part, f"{one.figure:.4g}", f"{one.limit:.4g}")

    first = {alike(one): one for one in reversed(findings)}
    found = Counter(alike(one) for one in findings)
    return tuple(
        Finding(one.code, one.part, _place(one.place, found[alike(one)]), one.figure, one.limit).text
        for one in dict.fromkeys(first[alike(one)] for one in findings)
    )


def _place(place: str, count: int) -> str:
    return place if count == 1 else f"{place} and {count - 1} more"
