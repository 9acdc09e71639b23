"""What the judge has to say: one finding per broken rule, with a code that stays the same."""

from dataclasses import dataclass

SLACK = 0.001
"""How much a length [mm] may miss a rule: a layout is written to the micrometre."""

CODES = {
    "malformed": "the layout cannot be read here; no figure",
    "name": "car, module or bay is not the one judged, or a bay comes twice; no figure",
    "shape": "corners told are not those found, or more than the bay's rules allow; figure: corners told",
    "outline": "a tier's outline stands for no box; figure: corners, or width of a place too narrow [mm]",
    "outline-nesting": "a tier's outline reaches past the one above it; figure: how far [mm]",
    "outside": "outlines and outside of a box differ in extent; figure: by how much [mm]",
    "boxes": "more boxes in a bay than the rules allow; figure: boxes",
    "bay-clearance": "box too near to wall, floor or top of the bay; figure: distance [mm], 0 through a wall",
    "keepout-clearance": "box too near to a keep-out; figure: distance [mm], 0 or less where they meet",
    "box-clearance": "two boxes too near to each other; figure: distance [mm], 0 or less where they meet",
    "flange": "flange or lid edge too near to bay or keep-out, the body is not; figure: distance [mm]",
    "insertion": "box meets a keep-out or wall on its way in; figure: least distance on the way [mm]",
    "insertion-order": "boxes of a bay that block each other's way in; figure: how many",
    "opening": "box does not pass the outline of the opening; figure: distance to its edge [mm]",
    "module-turning": "size or turning is not one the module file allows; figure: size missed by [mm]",
    "module-in-box": "module or its room too near to a box wall; figure: gap to the liner [mm]",
    "bend-fouled": "square module corner stands on the bend of a folded tray; figure: gap to the liner [mm]",
    "bead-fouled": "square module corner stands on the weld round a floor; figure: gap to the liner [mm]",
    "floor": "module stands on neither tray floor nor shelf; figure: height above the level below [mm]",
    "headroom": "too little above a tier, to its shelf or the lid; figure: headroom left [mm]",
    "tiers": "too many tiers, or told other than the modules stand; figure: tiers, or level told",
    "module-overlap": "two module bodies in one place; figure: overlap, less than 0 [mm]",
    "module-spacing": "two modules nearer than their spacing; figure: gap between faces [mm]",
    "module-room": "something stands in the room a module keeps clear; figure: how deep [mm]",
    "count": "modules placed, count, series and parallel do not agree; figure: modules placed",
    "string-parted": "a bay holds parts of strings that are to stay in one bay; figure: modules in it",
    "string-window": "the string leaves a voltage window; figure: its voltage [V]",
    "energy": "energy is not count times the module's; figure: energy told [kWh]",
    "bound": "count exceeds the bound, or is called proven without reaching it; figure: bound",
    "alternative": "count, strings or energy of an alternative are not its own; figure: modules placed",
    "box-mass": "mass told for all boxes is not that of such boxes; figure: mass told [kg]",
    "weights": "a weight told does not follow from the readings by moments; figure: value told",
    "axle-limit": "an axle is over its plated limit, everything carried; figure: axle load [kg]",
    "gross-limit": "the car is over its plated gross mass, everything carried; figure: gross mass [kg]",
    "target": "front share and `target_met` contradict each other; figure: front share told [-]",
    "solid-open": "a solid is not closed; figure: open edges of the mesh, none for the STEP file",
    "solid-wound": "triangles of a mesh face both ways, or all inwards; figure: volume [mm3]",
    "solid-invalid": "a file cannot be read back, or holds something else than sound solids; no figure",
    "solid-volume": "STEP and STL of a part differ in volume; figure: ratio STL to STEP [-]",
    "solid-mass": "ways of reckoning a part's mass disagree; figure: largest to smallest [-]",
    "print-missing": "a printed part was not written; no figure",
    "print-loose": "the file of a piece does not hold one body; figure: bodies",
    "print-triangles": "more triangles than a print shop takes; figure: triangles",
    "print-bed": "a piece does not fit the printer's bed; figure: too long by [mm]",
    "print-thin": "a piece's walls are thinner than can be printed; figure: share of its surface [-]",
    "print-volume": "pieces together are not the part less its joints; figure: their share of it [-]",
    "print-outside": "a piece reaches out of the part it was cut from; figure: volume outside [mm3]",
    "print-overlap": "two pieces in one place; figure: volume shared [mm3]",
    "print-fit": "two pieces nearer than the fit of the joint; figure: air between them [mm]",
    "sheet-unread": "lists or drawings of the stock sheets cannot be read back; no figure",
    "sheet-count": "a part is not on the sheets as often as the cut list asks; figure: times placed",
    "sheet-drawn": "a sheet's drawing is not what its list says; figure: parts drawn, or how far off [mm]",
    "sheet-cut": "a part on a sheet is not of the area that the cut list says; figure: how much more [mm2]",
    "sheet-edge": "a part lies too near to the edge of its sheet; figure: distance [mm]",
    "sheet-gap": "two parts lie too near to each other on a sheet; figure: distance [mm]",
    "fitting-outside": "a fitting too near to wall or keep-out; figure: distance [mm], 0 or less in it",
    "fitting-meets": "a fitting stands in a box or in another fitting; figure: how deep, less than 0 [mm]",
    "fitting-room": "the room that a fitting keeps is not free; figure: distance, or depth below 0 [mm]",
    "fitting-behind": "something stands where a fitting reaches in; figure: how deep, less than 0 [mm]",
    "fitting-in-bend": "a hole too near to bend, edge or corner; figure: how much, less than 0 [mm]",
    "cutout-astray": "a hole lies in no wall and no floor; no figure",
    "cutouts-near": "too little metal between two holes; figure: gap [mm]",
    "foot-off-mount": "a foot's hole is at no mount of its bay; figure: distance [mm], none without a hole",
    "foot-off-box": "a foot lies on no wall of its box; figure: distance [mm], none beside no wall",
    "bar-off-box": "a stiffening bar is on no face of its box; figure: distance [mm], none beside none",
    "bar-outside": "a stiffening bar is deeper than the room kept for it; figure: by how much [mm]",
    "doubler-off-wall": "a doubler lies on no wall of its box; figure: distance [mm], none beside none",
    "lug-off-box": "a lug lies on no wall of its box; figure: distance [mm], none beside no wall",
    "lug-hole": "a lug's hole is too near to its edge or to the flange; figure: metal, or how far past [mm]",
    "lug-balance": "lugs do not stand round the middle of the modules; figure: how far out that is [mm]",
    "housing-astray": "a part of a housing out of its room, or no slot for it; figure: how far [mm], or none",
    "hold-down-meets": "a hold-down in a module, its room or another hold-down; figure: depth, below 0 [mm]",
    "hold-down-outside": "a hold-down in wall, lid, shelf or floor; figure: from outside, or how deep [mm]",
    "hold-down-missing": "a module is not pressed at one of two opposite edges, which is not told; no figure",
    "retention-unread": "lists of retention cannot be read back, or a box is not told of; no figure",
    "retention-mass": "the mass pulled at is not the one weighed; figure: mass told [kg]",
    "retention-load": "a load is not mass times factor the way of the pull; figure: how far off [N]",
    "retention-balance": "forces of the feet do not balance the load; figure: how far off [N or N mm]",
    "retention-share": "a utilisation is not load over resistance; figure: utilisation told [-]",
    "retention-remedy": "a check that does not pass has no remedy; figure: utilisation told [-]",
    "breather-to-cabin": "a breather looks towards the cabin; figure: how far the cabin is along x [mm]",
    "drain-high": "a drain is not in the lowest floor; figure: height above it [mm]",
    "string-modules": "a module not once in one string, or strings not whole; figure: how many are told",
    "terminals": "a module's terminals are told off its surface; figure: how far [mm]",
    "link-length": "the link told is not that through the places told; figure: link told [mm]",
    "touching-volts": "volts between touching modules are not those told; figure: volts told [V]",
    "string-volts": "a string's volts are not those of its modules; figure: volts full told [V]",
    "cable-bend": "a link cable's bends have no room or are too tight; figure: stretch or inside [mm]",
    "cable-length": "a link cable is not as long as its places; figure: length told [mm]",
    "disconnect-reach": "no hand reaches the disconnect; figure: missing [mm], none for the wrong side",
}
"""Every code a finding may bear, what it says, and what its figure is."""


@dataclass(frozen=True)
class Finding:
    """One broken rule: `code` of CODES, where, in words, and the figure CODES tells of.

    >>> Finding("boxes", "front bay", "2 boxes, at most 1", 2.0).code
    'boxes'
    """

    code: str
    place: str
    text: str
    figure: float | None = None
