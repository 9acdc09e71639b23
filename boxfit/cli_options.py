"""What the commands ask for: arguments and options with their words of help."""

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

import typer

CarFolder = Annotated[Path, typer.Argument(metavar="CAR", help="A car's folder, such as bays/dunlin-850.")]
CarOrScan = Annotated[
    Path,
    typer.Argument(
        metavar="CAR",
        help="A car's folder, such as bays/dunlin-850; or one scan: .stl, .ply, .obj or .3mf; "
        "or modules: their folder, or one's file.",
    ),
]
ModuleWord = Annotated[
    str, typer.Option("--module", metavar="M", help="A module's file, or its stem in modules/.")
]
ModuleWords = Annotated[
    list[str] | None,
    typer.Option("--module", metavar="M", help="As often as wanted; all in modules/ if never."),
]
Seconds = Annotated[
    float,
    typer.Option("--seconds", metavar="S", min=0.0, help="How long to search; what is best by then is told."),
]
Varied = Annotated[
    list[str] | None,
    typer.Option(
        "--vary",
        metavar="KEY=V,V",
        help="Also with this key of car.toml, or BAY.KEY of a bay's file, set to each value; repeatable.",
    ),
]
Sorting = Annotated[
    str,
    typer.Option(
        "--sort",
        metavar="WORD",
        help="What rows stand by: energy, energy-by-mass, count, mass, share, volts, boxes, corners, height,"
        " litres, sheet, cost or as-given.",
    ),
]
SecondsEach = Annotated[
    float, typer.Option("--seconds", metavar="S", min=0.0, help="How long each search may take on its core.")
]
AllProcesses = Annotated[
    int | None,
    typer.Option(
        "--processes", metavar="N", min=1, max=256, help="Searches side by side; one a core if not given."
    ),
]
Cluster = Annotated[
    str | None,
    typer.Option("--cluster", metavar="ADDRESS", help="Search on the Dask cluster at tcp://HOST:PORT."),
]
Processes = Annotated[
    int, typer.Option("--processes", metavar="N", min=1, max=64, help="How many searches go on side by side.")
]
Shops = Annotated[
    list[str] | None,
    typer.Option(
        "--for", metavar="SHOP", help="One zip more with just what cut-shop or print-shop needs; repeatable."
    ),
]
ModuleBuilt = Annotated[
    str | None,
    typer.Option("--module", metavar="M", help="As for build; may be left out where results hold but one."),
]


def _four_numbers(words: tuple[str, str, str, str]) -> tuple[str, str, str, str]:
    """Refuses what is no number, so that a wheel left out is told as such."""
    for word in words:
        try:
            float(word)
        except ValueError:
            rule = f"needs four numbers, kg under each wheel, front left first; {word!r} is none"
            raise typer.BadParameter(rule) from None
    return words


Scales = Annotated[
    tuple[str, str, str, str],
    typer.Option(
        "--scales",
        metavar="FL FR RL RR",
        callback=_four_numbers,
        help="What four scales read, kg; front left first.",
    ),
]
Aboard = Annotated[
    list[str] | None,
    typer.Option("--with", metavar="NAME", help="Who or what of [[carried]] was aboard; repeatable."),
]
Out = Annotated[Path, typer.Option("--out", metavar="DIR", help="Where results land.")]


@dataclass(frozen=True)
class CompareAsked:
    """Lay the car out with every module and variation, side by side; write compare.csv, .json and .html.

    What was found is kept in DIR/.kept: a sweep that was stopped goes on from there.
    """

    car: CarFolder
    module: ModuleWords = None
    vary: Varied = None
    sort: Sorting = "energy"
    out: Out = Path("out")
    seconds: SecondsEach = 30.0
    processes: AllProcesses = None
    cluster: Cluster = None
