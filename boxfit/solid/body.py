"""What an assembly is made of: forms, made and meshed once, and bodies that show a form somewhere."""

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.solid.colours import Colour
from boxfit.solid.mesh import Mesh, mesh_of

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape


@dataclass(frozen=True, eq=False)
class Form:
    """A solid under the name that drawings give it; equal modules share one. Meshed when first asked."""

    name: str
    shape: "TopoDS_Shape"
    colour: Colour

    @cached_property
    def mesh(self) -> Mesh:
        """The triangle mesh [mm]."""
        return mesh_of(self.shape)


@dataclass(frozen=True)
class Body:
    """A form in its place in the car, moved by `shift` [mm] from where it was made."""

    name: str
    form: Form
    shift: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Group:
    """Bodies that belong together: a box and what is in it."""

    name: str
    bodies: tuple[Body, ...]


@dataclass(frozen=True)
class Assembly:
    """Everything that goes into the car, box by box."""

    name: str
    groups: tuple[Group, ...]
