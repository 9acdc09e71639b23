"""The page of a layout: what the solids are becomes what the page shows."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from boxfit.bay import Vector
    from boxfit.report.page.shown import Facets, Shown
    from boxfit.report.page.whole import Told
    from boxfit.solid.body import Body, Group
    from boxfit.solid.made import MadeBox
    from boxfit.solid.write import SolidReport


def shown_parts(boxes: "Sequence[MadeBox]", links: "Group | None" = None) -> "tuple[Shown, ...]":
    """Every body of every box by kind and by box, and the cables between boxes; equal forms share facets."""
    facets: dict[int, Facets] = {}
    found = [shown for box in boxes for shown in _of_box(box, facets)]
    if links is not None:
        stays = (0.0, 0.0, 0.0)
        found += [_shown("link cable", "", body, stays, facets) for body in links.bodies]
    return tuple(found)


def _of_box(box: "MadeBox", facets: "dict[int, Facets]") -> "Iterator[Shown]":
    """Parts, bought parts, modules and the room these keep clear."""
    from boxfit.report.page.exploded import push_of

    bodies = [(part.kind, part.body) for part in box.parts]
    bodies += [("bought part", one.body) for one in box.bought]
    bodies += [("module", one.body) for one in box.modules]
    bodies += [("module room", one.room) for one in box.modules if one.room]
    walls = [body for kind, body in bodies if kind == "tray"] or [body for _, body in bodies]
    low, high = _extent(walls)
    for kind, body in bodies:
        middle = _middle(_extent([body]))
        yield _shown(kind, box.name, body, push_of(kind, middle, low, high), facets)


def _shown(kind: str, group: str, body: "Body", push: "Vector", facets: "dict[int, Facets]") -> "Shown":
    from boxfit.report.page.shown import Facets, Shown

    mesh = body.form.mesh
    one = facets.setdefault(id(body.form), Facets(mesh.corners, mesh.triangles))
    return Shown(body.name, kind, group, one, body.form.colour, body.shift, push)


def _extent(bodies: "Sequence[Body]") -> "tuple[Vector, Vector]":
    """The lowest and the highest corner [mm] of some bodies."""
    corners = [body.form.mesh.moved(body.shift).corners for body in bodies]
    x, y, z = (min(float(one[:, k].min()) for one in corners) for k in range(3))
    right, left, top = (max(float(one[:, k].max()) for one in corners) for k in range(3))
    return (x, y, z), (right, left, top)


def _middle(ends: "tuple[Vector, Vector]") -> "Vector":
    x, y, z = ((a + b) / 2 for a, b in zip(*ends, strict=True))
    return (x, y, z)


def write_layout_page(told: "Told", solids: "SolidReport") -> None:
    """page.html, once everything that it shows lies in the folder. Raises OSError."""
    from boxfit.report.page.whole import write_page

    write_page(told, shown_parts(solids.boxes, solids.links))
