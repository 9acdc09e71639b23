"""What `boxfit new` has to know, and how it is asked for: at the terminal, or by options. Loads nothing."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Question:
    """One thing to be told.

    `option` takes `values` words; `asks` is the line shown at a terminal. What is not `needed` may be told
    later, in the file.
    """

    option: str
    values: str
    asks: str
    example: str
    needed: bool = True


NAME = Question("--name", "NAME", "What is the car called?", "Dunlin 850", needed=False)
WHEELBASE = Question("--wheelbase", "MM", "Wheelbase, from axle to axle [mm]?", "2180")
TRACKS = Question(
    "--tracks", "FRONT REAR", "Track at the front and at the rear, from tyre to tyre [mm]?", "1180 1160"
)
SCALES = Question(
    "--scales",
    "FL FR RL RR",
    "What four scales read under the stripped car, front left, front right, rear left, rear right [kg]?",
    "128 126.5 109 111.5",
    needed=False,
)
SHARE = Question(
    "--front-share",
    "SHARE",
    "Which part of the weight shall the front axle carry, 0 to 1?",
    "0.5",
    needed=False,
)
INVERTER = Question(
    "--inverter",
    "LOW HIGH",
    "Which volts does the inverter take, lowest and highest [V]?",
    "80 160",
    needed=False,
)
BAY = Question(
    "--bay",
    "NAME,KIND,WAY,LENGTH,WIDTH,HEIGHT[,FRONT,FLOOR]",
    "How many bays may hold boxes?",
    '"front bay,prism,up,670,740,340"',
)
QUESTIONS = (NAME, WHEELBASE, TRACKS, SCALES, SHARE, INVERTER, BAY)
"""In the order in which they are asked."""

BAY_NAME = Question("name", "", "What is it called?", "front bay")
KIND = Question(
    "kind", "", "How is it surveyed: block, prism (both by tape), sections, mesh (a scan) or step?", "prism"
)
WAY = Question("way", "", "From which side does a box go in: up, down, front, rear, left or right?", "up")
LENGTH = Question("length", "", "Its length along the car [mm]?", "670")
WIDTH = Question("width", "", "Its width across the car [mm]?", "740")
HEIGHT = Question("height", "", "Its height [mm]?", "340")
FRONT = Question(
    "front",
    "",
    "Where is its front end, from the front axle, forwards counted as + [mm]?",
    "170",
    needed=False,
)
FLOOR = Question("floor", "", "How high is its floor above the ground [mm]?", "300", needed=False)
OF_A_BAY = (BAY_NAME, KIND, WAY, LENGTH, WIDTH, HEIGHT, FRONT, FLOOR)
"""In the order in which they are asked, and stand behind --bay."""
