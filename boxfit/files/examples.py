"""An example of every key a person may write, shown where one is missing or wrong. All invented."""

import tomllib

from boxfit.files.shown import shown

Table = dict[str, object]

CAR: Table = tomllib.loads("""
name = "Dunlin 850"
bays = ["front.toml", "rear.toml"]
wheelbase = 2180.0
track = { front = 1180.0, rear = 1160.0 }
fitted = [{ name = "drive motor", mass = 54.0, at = [-310.0, 0.0, 360.0] }]
carried = [{ name = "driver", mass = 75.0, at = [-1240.0, -330.0, 480.0] }]
target = { front_share = 0.50, tolerance = 0.02, with = ["driver"] }
limits = { front_axle = 480.0, rear_axle = 520.0, gross = 950.0 }

[weighed]
front_left = 128.0
front_right = 126.5
rear_left = 109.0
rear_right = 111.5
height_of_mass = 420.0
front_axle = 254.5
rear_axle = 220.5
gross = 475.0
scale_error = 1.0
raised = { axle = "front", height = 500.0, load = 227.7, wheel_radius = 280.0 }

[electrics]
inverter_voltage = [80.0, 160.0]
charger_voltage = [80.0, 170.0]
string_in_one_bay = false
current = { continuous = 200.0, peak = 500.0 }

[box]
material = "aluminium-5754"
process = "folded"
shape = "rectangular"
thickness = 2.5
bend_radius = 2.5
flange = 22.0
lid_thickness = 2.0
clearance = 10.0
liner = 3.0
gap = 4.0
headroom = 5.0
tiers = 2
boxes = 1
gasket_width = 8.0
gasket_thickness = 4.0
cover_material = "stainless-1.4301"
stiffening_depth = 15.0
stiffening_floor_depth = 25.0
stiffening_thickness = 5.0
foot_thickest = 10.0
foot_width = 80.0
doubler_thickest = 6.0
hold_down_material = "stainless-1.4301"
hold_down_thickness = 2.0
hold_down_bar_thickness = 3.0

[fold_shop]
sheet = [2500.0, 1250.0]
brake = 2500.0
least_flange = 10.0
weld_gap = 0.5
weld_bead = 3.0
part_gap = 8.0
sheet_edge = 10.0
k = [{ thickness = 2.5, radius = 2.5, k = 0.41 }]
price = { aluminium-5754 = 6.5 }

[print_shop]
bed = [250.0, 250.0, 250.0]
joint = 0.2
least_wall = 1.2

[tolerances]
module = 0.5
liner = 0.3
cut = 0.2
fold = 0.25
fold_angle = 0.5
weld = 1.0
printed = 0.3

[retention]
rules = "twenty-g"
factors = { front = 20.0, rear = 10.0, side = 15.0, up = 10.0, down = 10.0 }
""")

PRISM_BAY: Table = tomllib.loads("""
name = "front bay"
opening = { way = "up", outline = [[200.0, -300.0], [200.0, 300.0], [-400.0, 300.0], [-400.0, -300.0]] }

[survey]
tolerance = 3.0
kind = "prism"
outline = [[250.0, -400.0], [250.0, 400.0], [-420.0, 340.0], [-420.0, -340.0]]
floor = 260.0
top = 640.0

[[keepout]]
name = "steering column"
kind = "cylinder"
from = [200.0, 310.0, 300.0]
to = [-420.0, 330.0, 520.0]
diameter = 60.0
clearance = 15.0
negotiable = false

[[mount]]
name = "front left bracket"
at = [150.0, 320.0, 290.0]
faces = "up"
bolt = "M8"
body_thickness = 1.2
drilled = true
""")
PRISM_BAY["box"] = CAR["box"]

BLOCK_BAY: Table = tomllib.loads("""
survey = { tolerance = 3.0, kind = "block", low = [-420.0, -340.0, 260.0], high = [250.0, 340.0, 640.0] }
keepout = [{ name = "hinge", kind = "block", low = [200.0, 250.0, 560.0], high = [250.0, 340.0, 640.0] }]
""")

SECTIONS_BAY: Table = tomllib.loads("""
[survey]
tolerance = 3.0
kind = "sections"
reference = { between = [[250.0, -400.0, 260.0], [250.0, 400.0, 260.0]], taped = 800.0 }

[[survey.section]]
at = 250.0
outline = [[-400.0, 260.0], [400.0, 260.0], [400.0, 640.0], [-400.0, 640.0]]

[[survey.section]]
at = -420.0
outline = [[-340.0, 290.0], [340.0, 290.0], [340.0, 640.0], [-340.0, 640.0]]

[[keepout]]
name = "bonnet hinge"
kind = "block"
low = [-420.0, 300.0, 560.0]
high = [-300.0, 340.0, 640.0]
clearance = 15.0
negotiable = true
reason = "moving"
turns = { hinge = [[-420, 0, 640], [-420, 9, 640]], by = [0, 70] }
""")

MESH_BAY: Table = tomllib.loads("""
[survey]
tolerance = 4.0
kind = "mesh"
file = "front-scan.stl"
unit = "mm"
move = [250.0, -400.0, 260.0]
turn = [0.0, 0.0, 90.0]
reads = "room"
holes = 30.0
strays = 20.0
reference = { between = [[250.0, -400.0, 260.0], [250.0, 400.0, 260.0]], taped = 800.0 }

[[keepout]]
name = "wiper motor"
kind = "mesh"
file = "wiper-motor.stl"
unit = "mm"
move = [-300.0, 200.0, 560.0]
turn = [0.0, 0.0, 90.0]
clearance = 15.0
negotiable = false
reason = "hot"
moves = [[0.0, 0.0, -60.0], [0.0, 0.0, 80.0]]
""")

STEP_BAY: Table = tomllib.loads("""
[survey]
tolerance = 2.0
kind = "step"
file = "front-bay.step"
unit = "mm"
move = [250.0, -400.0, 260.0]
turn = [0.0, 0.0, 90.0]
reference = { between = [[250.0, -400.0, 260.0], [250.0, 400.0, 260.0]], taped = 800.0 }
""")

MODULE: Table = tomllib.loads("""
name = "Heron 44"
size = { length = 355.0, width = 151.0, height = 108.0 }
mass = 11.6
energy = 2.2
capacity = 50.0
voltage = { empty = 33.0, nominal = 44.0, full = 50.4 }
current = { continuous = 100.0, peak = 250.0 }
up = ["height"]
spacing = 2.0
room = { top = 30.0, bottom = 0.0, front = 0.0, back = 0.0, left = 0.0, right = 0.0 }
room_shared = false
held = { at = ["front", "back"], width = 12.0 }
terminals = "top"
price = 480.0
""")

ON_ONE_LINE = ("track", "size", "voltage", "current", "room", "held", "turns", "k", "price")
"""Tables that are short enough to be written between braces."""


def example_line(samples: tuple[Table, ...], words: tuple[str, ...]) -> str:
    """What to write for the key, as one line of advice; `words` lead to it from the top of the file.

    >>> example_line((CAR,), ("fitted", "mass"))
    'write under [[fitted]], for example: mass = 54'
    >>> example_line((CAR,), ("track", "rear"))
    'write for example: track = { front = 1180, rear = 1160 }'
    >>> example_line((PRISM_BAY, SECTIONS_BAY), ("survey", "section", "at"))
    'write under [[survey.section]], for example: at = 250'
    """
    shortened = next((place for place, word in enumerate(words) if word in ON_ONE_LINE), len(words))
    words = words[: shortened + 1]
    value = _found(samples, words)
    short = words[-1] in ON_ONE_LINE
    if isinstance(value, dict) and not short:
        return f"write a table {_heading(samples, words)} with the keys {', '.join(value)}"
    if isinstance(value, list) and isinstance(value[0], dict) and not short:
        return f"write each under its own {_heading(samples, words)} with the keys {', '.join(value[0])}"
    line = f"{words[-1]} = {shown(value)}"
    if len(words) == 1:
        return f"write for example: {line}"
    return f"write under {_heading(samples, words[:-1])}, for example: {line}"


def _heading(samples: tuple[Table, ...], words: tuple[str, ...]) -> str:
    """The heading of a table, or of each table of a list."""
    name = ".".join(words)
    return f"[[{name}]]" if isinstance(_found(samples, words), list) else f"[{name}]"


def _found(samples: tuple[Table, ...], words: tuple[str, ...]) -> object:
    return next(found for sample in samples if (found := _find(sample, words)) is not None)


def _find(node: object, words: tuple[str, ...]) -> object | None:
    """What the words lead to, going into every entry of a list of tables."""
    if not words:
        return node
    if isinstance(node, list):
        return next((found for each in node if (found := _find(each, words)) is not None), None)
    return _find(node[words[0]], words[1:]) if isinstance(node, dict) and words[0] in node else None
