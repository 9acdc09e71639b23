"""What `boxfit new` is told by options, and questions at a terminal: shown on stderr, answered on stdin."""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

import typer

from boxfit.files.starting import questions
from boxfit.files.starting.questions import Question


@dataclass(frozen=True)
class NewAsked:
    """Write a folder for a car to start from, with help in it, after a few questions.

    Where wheelbase, tracks and bays are told by options, nothing is asked. Nothing is ever overwritten.
    """

    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", help="A folder that is not there yet, such as bays/yours.")
    ]
    name: Annotated[
        str | None, typer.Option("--name", metavar="NAME", help="The car's; else that of the folder.")
    ] = None
    wheelbase: Annotated[str | None, typer.Option("--wheelbase", metavar="MM", help="From axle to axle.")] = (
        None
    )
    tracks: Annotated[
        tuple[str, str] | None,
        typer.Option("--tracks", metavar="FRONT REAR", help="From tyre to tyre, mm."),
    ] = None
    scales: Annotated[
        tuple[str, str, str, str] | None,
        typer.Option(
            "--scales", metavar="FL FR RL RR", help="What four scales read, kg; may be left for later."
        ),
    ] = None
    front_share: Annotated[
        str | None,
        typer.Option("--front-share", metavar="SHARE", help="Wanted, 0 to 1; may be left for later."),
    ] = None
    inverter: Annotated[
        tuple[str, str] | None,
        typer.Option("--inverter", metavar="LOW HIGH", help="What it takes, V; may be left for later."),
    ] = None
    bay: Annotated[
        list[str] | None,
        typer.Option(
            "--bay",
            metavar="NAME,KIND,WAY,LENGTH,WIDTH,HEIGHT[,FRONT,FLOOR]",
            help="One for each bay, mm. KIND: block, prism, sections, mesh or step. WAY in: up, down, front, "
            "rear, left or right. FRONT: its front end from the front axle. FLOOR: above the ground.",
        ),
    ] = None

    def said(self) -> dict[Question, list[str]]:
        """The words of every option that was written."""
        words: dict[Question, list[str] | None] = {
            questions.NAME: [self.name] if self.name is not None else None,
            questions.WHEELBASE: [self.wheelbase] if self.wheelbase is not None else None,
            questions.TRACKS: list(self.tracks) if self.tracks else None,
            questions.SCALES: list(self.scales) if self.scales else None,
            questions.SHARE: [self.front_share] if self.front_share is not None else None,
            questions.INVERTER: list(self.inverter) if self.inverter else None,
            questions.BAY: self.bay or None,
        }
        return {question: told for question, told in words.items() if told is not None}


def asking() -> Callable[[str], str] | None:
    """What shows a line and gives what was typed, raising EOFError at the end; None without a terminal."""
    return _ask if sys.stdin.isatty() else None


def say(text: str) -> None:
    """A line to whoever answers."""
    typer.echo(text, err=True)


def _ask(line: str) -> str:
    typer.echo(f"{line} ", err=True, nl=False)
    answer = sys.stdin.readline()
    if not answer:
        raise EOFError
    return str(answer)
