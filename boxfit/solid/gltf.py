"""The assembly as binary glTF 2.0: metres, y up, z forward, so that any viewer stands it on its wheels."""

from pathlib import Path
from typing import Any

from boxfit.bay import Vector
from boxfit.solid.body import Assembly, Body, Form

METRE = 1000.0
"""Millimetres in a metre."""


def to_gltf(point: Vector) -> Vector:
    """A point of the car [mm] as glTF has it [m]: its x is the car's left, its y up, its z forward.

    >>> to_gltf((1000.0, 200.0, 30.0))
    (0.2, 0.03, 1.0)
    """
    x, y, z = point
    return (y / METRE, z / METRE, x / METRE)


def write_glb(assembly: Assembly, path: Path) -> None:
    """One node per box and per body, named as in the assembly; equal modules share one mesh."""
    scene = _trimesh().Scene()
    scene.graph.update(frame_to=assembly.name)
    for group in assembly.groups:
        scene.graph.update(frame_from=assembly.name, frame_to=group.name)
        for body in group.bodies:
            _place(scene, group.name, body)
    path.write_bytes(scene.export(file_type="glb", include_normals=False, tree_postprocessor=_sign))


def _trimesh() -> Any:
    """The mesh library; without its types, as half of its calls have none."""
    import trimesh

    return trimesh


def _place(scene: Any, group: str, body: Body) -> None:
    """Shows the body's form under the body's name; the first body of a form brings the mesh along."""
    import numpy

    move = numpy.eye(4)
    move[:3, 3] = to_gltf(body.shift)
    if body.form.name not in scene.geometry:
        scene.geometry[body.form.name] = _coloured(body.form)
    scene.graph.update(frame_from=group, frame_to=body.name, matrix=move, geometry=body.form.name)


def _coloured(form: Form) -> Any:
    """The form's mesh in metres with its colour, see-through where the colour is."""
    trimesh = _trimesh()
    material = trimesh.visual.material.PBRMaterial(
        name=form.name,
        baseColorFactor=[round(part * 255) for part in form.colour],
        metallicFactor=0.0,
        roughnessFactor=0.7,
        alphaMode="OPAQUE" if form.colour[3] == 1.0 else "BLEND",
    )
    look = trimesh.visual.TextureVisuals(material=material)
    corners = form.mesh.corners[:, [1, 2, 0]] / METRE
    return trimesh.Trimesh(corners, form.mesh.triangles, process=False, visual=look)


def _sign(tree: dict[str, Any]) -> None:
    """Says who made the file."""
    tree["asset"]["generator"] = "boxfit"
