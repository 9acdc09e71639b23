"""A drawing sheet, A3 landscape, measured in millimetres of paper from its lower left corner."""

from __future__ import annotations

import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.bay import Point
from boxfit.report.area import Area
from boxfit.report.look import PAPER, Ink, Lettering

if TYPE_CHECKING:
    from matplotlib.font_manager import FontProperties
    from matplotlib.patches import Patch

PAGE = Area(0.0, 0.0, 420.0, 297.0)
DOTS_PER_INCH = 150
INCH = 25.4
WORDS_ON_TOP = 1e6
SIZE_OF_NO_MATTER = 10.0
NO_NAMES = {"Date": None, "Creator": None, "Format": None, "Type": None}


@contextmanager
def plain_settings() -> Iterator[None]:
    """The drawing library as shipped, whatever the user's own settings are, and with steady names in SVG.

    Words are drawn as outlines, so that they look the same where the font is missing. What the font has no
    sign for is told by `boxfit check`, once, and not by the library, many times.
    """
    import matplotlib as mpl

    with mpl.rc_context(), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph .* missing from")
        mpl.rcdefaults()
        mpl.rcParams.update({"svg.hashsalt": "boxfit", "svg.fonttype": "path"})
        mpl.rcParams.update({"text.parse_math": False, "lines.scale_dashes": False, "hatch.linewidth": 0.35})
        yield


def _font(bold: bool, size: float) -> FontProperties:
    """The font file that comes with the drawing library, so that every machine sets the same words."""
    import matplotlib as mpl
    from matplotlib.font_manager import FontProperties

    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return FontProperties(fname=str(Path(mpl.get_data_path()) / "fonts" / "ttf" / name), size=size)


def signs_not_drawn(words: str) -> str:
    """Those signs of the words that the font has not, each once; frames stand in their place.

    >>> signs_not_drawn("Möwe № 4")
    ''
    """
    from matplotlib.font_manager import get_font

    file = _font(bold=False, size=SIZE_OF_NO_MATTER).get_file()
    known = get_font(str(file)).get_charmap()
    return "".join(sign for sign in dict.fromkeys(words) if ord(sign) not in known)


class Sheet:
    """One page under way. `taken` are the places where words stand already."""

    def __init__(self) -> None:
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure
        from matplotlib.transforms import Affine2D

        size = (PAGE.width / INCH, PAGE.height / INCH)
        self.figure = Figure(figsize=size, dpi=DOTS_PER_INCH, facecolor=PAPER)
        self.taken: list[Area] = []
        self._renderer = FigureCanvasAgg(self.figure).get_renderer()  # type: ignore[no-untyped-call]
        self._millimetres = Affine2D().scale(1 / INCH) + self.figure.dpi_scale_trans
        self._sizes: dict[tuple[str, float, bool], Point] = {}
        self._depth = 0

    def measure(self, words: str, lettering: Lettering) -> Point:
        """Width and height [mm] that the words take."""
        from matplotlib.text import Text

        key = (words, lettering.size, lettering.bold)
        if key not in self._sizes:
            text = Text(0, 0, words, fontproperties=_font(lettering.bold, lettering.size))
            text.set_figure(self.figure)
            box = text.get_window_extent(self._renderer)
            self._sizes[key] = (box.width * INCH / DOTS_PER_INCH, box.height * INCH / DOTS_PER_INCH)
        width, height = self._sizes[key]
        return (height, width) if lettering.turned else (width, height)

    def area(self, words: str, at: Point, lettering: Lettering) -> Area:
        """The place the words would take, held at `at` by the anchor and by mid-height."""
        width, height = self.measure(words, lettering)
        share = {"left": 0.0, "center": 0.5, "right": 1.0}[lettering.anchor]
        if lettering.turned:
            left, bottom = at[0] - width / 2, at[1] - share * height
        else:
            left, bottom = at[0] - share * width, at[1] - height / 2
        return Area(left, bottom, left + width, bottom + height)

    def write(self, words: str, at: Point, lettering: Lettering) -> Area:
        """Set the words and take their place."""
        from matplotlib.text import Text

        place = self.area(words, at, lettering)
        font = _font(lettering.bold, lettering.size)
        text = Text(*place.centre, words, color=lettering.colour, fontproperties=font)
        text.set(ha="center", va="center", rotation=90 if lettering.turned else 0)
        text.set(transform=self._millimetres, zorder=WORDS_ON_TOP)
        self.figure.add_artist(text)
        self.taken.append(place)
        return place

    def fitted(self, words: str, lettering: Lettering, width: float) -> str:
        """The words, cut short with an ellipsis where they take more than `width` [mm]."""
        if self.measure(words, lettering)[0] <= width:
            return words
        while words and self.measure(words + "…", lettering)[0] > width:
            words = words[:-1]
        return words.rstrip() + "…"

    def line(self, points: Sequence[Point], ink: Ink) -> None:
        """Draw an open line."""
        self._outline(list(points), ink)

    def face(self, points: Sequence[Point], ink: Ink) -> None:
        """Draw a closed outline, filled and hatched where the ink says so."""
        self._outline([*points, points[0]], ink)

    def round(self, centre: Point, radius: float, ink: Ink) -> None:
        """Draw a round."""
        from matplotlib.patches import Circle

        self._add(Circle(centre, radius), ink)

    def quarter(self, centre: Point, radius: float, start: float, ink: Ink) -> None:
        """Draw a quarter of a round, from `start` [degrees] on."""
        from matplotlib.patches import Wedge

        self._add(Wedge(centre, radius, start, start + 90), ink)

    def save(self, stem: Path) -> tuple[Path, Path]:
        """Write `stem`.svg and `stem`.png, without dates or makers' names, and name the two files."""
        vector, dots = stem.with_suffix(".svg"), stem.with_suffix(".png")
        self.figure.savefig(vector, metadata=NO_NAMES)
        self.figure.savefig(dots, dpi=DOTS_PER_INCH, metadata={"Software": None})
        return vector, dots

    def _outline(self, points: list[Point], ink: Ink) -> None:
        from matplotlib.patches import PathPatch
        from matplotlib.path import Path as Outline

        self._add(PathPatch(Outline(points, closed=points[0] == points[-1]), joinstyle="miter"), ink)

    def _add(self, patch: Patch, ink: Ink) -> None:
        """Put a shape on top of all the shapes before it."""
        self._depth += 1
        patch.set(linewidth=ink.width, edgecolor=ink.colour or "none", facecolor=ink.fill or "none")
        if ink.dashes:
            patch.set_linestyle((0, ink.dashes))
        if ink.hatch:
            patch.set_hatch(ink.hatch)
        patch.set(transform=self._millimetres, zorder=self._depth)
        self.figure.add_artist(patch)
