"""What stays in a bay as a file tells of it, into the solid believed: at rest, or wherever it moves. [mm]"""

from dataclasses import replace

from boxfit.bay import Block, Cylinder, Solid
from boxfit.files.places import vector
from boxfit.files.said_keepout import SaidBlockKeepout, SaidKeepout, SaidMeshKeepout
from boxfit.files.scans import Scans
from boxfit.surface import Surface

MOVING = "moving"
"""The reason of a keep-out that moves and gives no other."""


def solid_believed(said: SaidKeepout, scans: Scans) -> Solid:
    """The solid, swept along where it moves.

    Raises SurveyError where it is a scan that cannot be taken, or does not close.
    """
    solid = _at_rest(said, scans)
    return _swept(solid, said) if said.moves or said.turns else solid


def reason_believed(said: SaidKeepout) -> str:
    """Why the keep-out needs more room than plain metal; empty where it does not."""
    return said.reason or (MOVING if said.moves or said.turns else "")


def _swept(solid: Solid, said: SaidKeepout) -> Surface:
    from boxfit.survey.sweep import Motion, swept

    motion = Motion(moves=tuple(vector(offset) for offset in said.moves or ()))
    if said.turns:
        (start, end), (first, last) = said.turns.hinge, said.turns.by
        motion = replace(motion, hinge=(vector(start), vector(end)), turns=(first, last))
    return swept(solid, motion)


def _at_rest(said: SaidKeepout, scans: Scans) -> Solid:
    if isinstance(said, SaidMeshKeepout):
        return scans.solid(said, None).surface
    if isinstance(said, SaidBlockKeepout):
        return Block(vector(said.low), vector(said.high))
    return Cylinder(vector(said.start), vector(said.end), said.diameter)
