"""The commands: words in, words out. No rule of the trade lives here.

Results are told on stdout, everything else on stderr. Exit status 0: done; 1: no layout meets the hard
rules; 2: the input is wrong; 3: boxfit found fault with its own result; 130: stopped.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import typer

from boxfit.cli_asking import NewAsked, asking, say
from boxfit.cli_options import (
    Aboard,
    CarFolder,
    CarOrScan,
    CompareAsked,
    ModuleBuilt,
    ModuleWord,
    Out,
    Processes,
    Scales,
    Seconds,
    Shops,
)
from boxfit.cli_progress import counted, progress, usual_processes, watched

NO_LAYOUT, WRONG_INPUT, OWN_FAULT, INTERRUPTED = 1, 2, 3, 130


def _go_on(asked: object) -> None:
    """Does what a command with many options collected; other commands have done all by then."""
    if isinstance(asked, CompareAsked):
        _compare(asked)
    if isinstance(asked, NewAsked):
        _new(asked)


app = typer.Typer(
    result_callback=_go_on,
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

    with _messages(), progress():
        seen = look(car)
    if seen:
        typer.echo(seen.rstrip("\n"))
        return
    with _messages(), progress() as tell:
        the_car = read_car(car)
        target = out / the_car.folder / "survey"
        text = jobs.check(the_car, target, tell)
    _done(text, target)


app.command("new")(NewAsked)


def _new(asked: NewAsked) -> None:
    from boxfit import jobs

    with _messages():
        text = jobs.new(asked.folder, asked.said(), asking(), say)
    _done(text, asked.folder)


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

    with _messages(), progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        with watched(seconds, tell) as watch:
            search = jobs.Search(watch, processes, tell)
            found, pack = jobs.laid_out_beside_others(the_car, the_module, search)
        target = out / the_car.folder / the_module.stem
        jobs.write_layout(the_car, the_module, found, target)
        text = summary(the_car, the_module, found, pack)
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

    with _messages(), progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        target = out / the_car.folder / the_module.stem
        with watched(seconds, tell) as watch:
            search = jobs.Search(watch, processes, tell)
            text = jobs.build(the_car, the_module, target, search, shops or ())
    _done(text, target)


app.command("compare")(CompareAsked)


def _compare(asked: CompareAsked) -> None:
    """Does what `boxfit compare` was asked."""
    from boxfit import jobs
    from boxfit.files.together import read_varied

    with _messages():
        jobs.refuse_order(asked.sort)
        with progress():
            cars, modules = read_varied(asked.car, asked.module or [], asked.vary or [])
        means = jobs.Means(asked.seconds, asked.processes or usual_processes(), asked.out, asked.cluster)
        with counted("searching") as count:
            found = jobs.compare(cars, modules, means, asked.sort, count)
    _done(found.text, found.file)
    if not found.fits:
        raise typer.Exit(NO_LAYOUT)


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
    from boxfit.files.together import read_together

    with _messages(), progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        target = out / the_car.folder / the_module.stem
        with watched(seconds, lambda _: None) as watch:  # what it tells are its easings
            text, fits = jobs.limits(the_car, the_module, target, jobs.Search(watch, processes, tell))
    _done(text, target / "limits.csv")
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

    with _messages(), progress() as tell:
        the_car, (the_module,) = read_together(car, [module])
        target = out / the_car.folder / the_module.stem
        with watched(seconds, tell) as watch:
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

    with _messages(), progress() as tell:
        front_left, front_right, rear_left, rear_right = map(float, scales)
        readings = (front_left, front_right, rear_left, rear_right)
        asked = jobs.Asked(car, module, readings, tuple(aboard or ()), out)
        with watched(seconds, tell) as watch:
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
    from boxfit.jobs import JudgedWrongError, NothingFitsError, StoppedError

    try:
        yield
    except InputError as error:
        raise _stop(str(error), WRONG_INPUT) from None
    except NothingFitsError as nothing:
        raise _stop("No layout meets the hard rules.\n" + str(nothing), NO_LAYOUT) from None
    except JudgedWrongError as wrong:
        text = (
            "boxfit found fault with its own result and did not write it. "
            "Please report this with the files:\n"
        )
        raise _stop(text + str(wrong), OWN_FAULT) from None
    except OSError as error:
        text = f"{error.filename or 'results'}: cannot be written: {error.strerror or error}"
        raise _stop(
            f"{text}\n  try: free some space, or name another folder with --out", WRONG_INPUT
        ) from None
    except StoppedError as stopped:
        raise _stop(str(stopped), INTERRUPTED) from None
    except KeyboardInterrupt:
        raise _stop("stopped; nothing was written by halves", INTERRUPTED) from None


def main() -> None:
    """The command line."""
    app()


if __name__ == "__main__":
    main()
