"""The commands: words in, words out. No rule of the trade lives here.

Results are told on stdout, everything else on stderr. Exit status 0: done; 1: no layout meets the hard
rules; 2: the input is wrong.
"""

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from boxfit.cli_options import (
    Aboard,
    CarFolder,
    CarOrScan,
    ModuleBuilt,
    ModuleWord,
    ModuleWords,
    Out,
    Processes,
    Scales,
    Seconds,
    Shops,
)

if TYPE_CHECKING:
    from boxfit.jobs import Tell
    from boxfit.search.watch import Watch

NO_LAYOUT, WRONG_INPUT, OWN_FAULT, INTERRUPTED = 1, 2, 3, 130

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="Fits battery modules into the bays of a classic car and draws the boxes that hold them.",
)


@app.command()
def check(car: CarOrScan, out: Out = Path("out")) -> None:
    """Read everything, say what each bay holds and what is missing or odd, and draw the bays.

    Of one scan: say what it holds and show a bay file to start from. Of a folder of modules, or one
    module's file: a table, and what is missing or odd. Nothing is written of either.
    """
    from boxfit import jobs
    from boxfit.files.car import read_car
    from boxfit.jobs.look import look

    with _messages(), _progress():
        seen = look(car)
    if seen:
        typer.echo(seen.rstrip("\n"))
        return
    with _messages(), _progress() as tell:
        the_car = read_car(car)
        target = out / the_car.folder / "survey"
        text = jobs.check(the_car, target, tell)
    _done(text, target)


@app.command()
def layout(
    car: CarFolder,
    module: ModuleWord,
    out: Out = Path("out"),
    seconds: Seconds = 30.0,
    processes: Processes = 2,
) -> None:
    """Search for the best layout alone, and write layout.json."""
    from boxfit import jobs
    from boxfit.files.together import read_together
    from boxfit.report.summary import summary

    with _messages(), _progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        with _watched(seconds, tell) as watch:
            found = jobs.laid_out_beside_others(the_car, the_module, jobs.Search(watch, processes, tell))
        target = out / the_car.folder / the_module.stem
        jobs.write_layout(found, target)
        text = summary(the_car, the_module, found)
    _done(text, target / "layout.json")


@app.command()
def build(
    car: CarFolder,
    module: ModuleWord,
    out: Out = Path("out"),
    seconds: Seconds = 30.0,
    processes: Processes = 2,
    shops: Shops = None,
) -> None:
    """Search for the best layout, then write every file for the workshop."""
    from boxfit import jobs
    from boxfit.files.together import read_together

    with _messages(), _progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        target = out / the_car.folder / the_module.stem
        with _watched(seconds, tell) as watch:
            search = jobs.Search(watch, processes, tell)
            text = jobs.build(the_car, the_module, target, search, shops or ())
    _done(text, target)


@app.command()
def compare(
    car: CarFolder, module: ModuleWords = None, out: Out = Path("out"), seconds: Seconds = 30.0
) -> None:
    """Lay the car out with every module, side by side, and write compare.csv."""
    from boxfit import jobs
    from boxfit.files.results import write_whole
    from boxfit.files.together import read_together

    with _messages(), _progress() as tell:
        the_car, modules = read_together(car, module or [])
        with _watched(seconds * len(modules), lambda _: None) as watch:
            table, rows = jobs.compared(the_car, modules, watch, tell)
        target = out / the_car.folder / "compare.csv"
        write_whole(target, rows.encode())
    _done(table, target)


@app.command()
def limits(
    car: CarFolder,
    module: ModuleWord,
    out: Out = Path("out"),
    seconds: Seconds = 300.0,
    processes: Processes = 2,
) -> None:
    """Say what holds the layout back and what easing each thing would bring, and write limits.csv."""
    from boxfit import jobs
    from boxfit.files.results import write_whole
    from boxfit.files.together import read_together

    with _messages(), _progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        with _watched(seconds, lambda _: None) as watch:  # what it tells are its easings
            text, rows, fits = jobs.limits(the_car, the_module, jobs.Search(watch, processes, tell))
        target = out / the_car.folder / the_module.stem / "limits.csv"
        write_whole(target, rows.encode())
    _done(text, target)
    if not fits:
        raise typer.Exit(NO_LAYOUT)


@app.command()
def papers(
    car: CarFolder,
    module: ModuleWord,
    out: Out = Path("out"),
    seconds: Seconds = 30.0,
    processes: Processes = 2,
) -> None:
    """Put all that an inspector asks for into papers.pdf, beside the results of build."""
    from boxfit import jobs
    from boxfit.files.together import read_together

    with _messages(), _progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        target = out / the_car.folder / the_module.stem
        with _watched(seconds, tell) as watch:
            text = jobs.papers(the_car, the_module, target, jobs.Search(watch, processes, tell))
    _done(text, target / "papers.pdf")


@app.command()
def weigh(
    car: CarFolder,
    scales: Scales,
    module: ModuleBuilt = None,
    aboard: Aboard = None,
    out: Out = Path("out"),
    seconds: Seconds = 30.0,
) -> None:
    """Set the finished car's four readings against the forecast, and say what a difference hints at."""
    from boxfit import jobs

    with _messages(), _progress() as tell:
        front_left, front_right, rear_left, rear_right = map(float, scales)
        readings = (front_left, front_right, rear_left, rear_right)
        asked = jobs.Asked(car, module, readings, tuple(aboard or ()), out)
        with _watched(seconds, tell) as watch:
            text = jobs.weigh(asked, jobs.Search(watch, 1, tell))
    typer.echo(text.rstrip("\n"))


def _done(text: str, target: Path) -> None:
    """The result on stdout, where it lies on stderr."""
    typer.echo(text.rstrip("\n"))
    typer.echo(f"written: {target}", err=True)


def _stop(text: str, status: int) -> typer.Exit:
    typer.echo(text, err=True)
    return typer.Exit(status)


@contextmanager
def _messages() -> Iterator[None]:
    """Turns what can go wrong into a message and an exit status; nothing ends in a traceback."""
    from boxfit.files.problems import InputError
    from boxfit.jobs import JudgedWrongError, NothingFitsError

    try:
        yield
    except InputError as error:
        raise _stop(str(error), WRONG_INPUT) from None
    except NothingFitsError as nothing:
        raise _stop("No layout meets the hard rules.\n" + str(nothing), NO_LAYOUT) from None
    except JudgedWrongError as wrong:
        text = (
            "boxfit found fault with its own result and wrote nothing. Please report this with the files:\n"
        )
        raise _stop(text + str(wrong), OWN_FAULT) from None
    except OSError as error:
        text = f"{error.filename or 'results'}: cannot be written: {error.strerror or error}"
        raise _stop(
            f"{text}\n  try: free some space, or name another folder with --out", WRONG_INPUT
        ) from None
    except KeyboardInterrupt:
        raise _stop("stopped; nothing was written", INTERRUPTED) from None


@contextmanager
def _watched(seconds: float, tell: "Tell") -> "Iterator[Watch]":
    """A watch that Ctrl-C ends, so that what is found by then is kept; a second Ctrl-C stops everything."""
    from boxfit.search.watch import Watch

    def hear(found: int, bound: int | None) -> None:
        open_still = f"; whether {bound} could go in is being settled" if bound else ""
        tell(f"{found} modules found{open_still}")

    watch = Watch(seconds, hear)

    def interrupted(_signal: int, _frame: object) -> None:
        watch.stop()
        signal.signal(signal.SIGINT, signal.default_int_handler)

    before = signal.signal(signal.SIGINT, interrupted)
    try:
        yield watch
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def _progress() -> "Iterator[Tell]":
    """Shows what is being done while it is done, on a terminal only."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console

    with Console(stderr=True).status("reading") as status:
        yield status.update


def main() -> None:
    """The command line."""
    app()


if __name__ == "__main__":
    main()
