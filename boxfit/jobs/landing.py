"""How a command's results land: whole or not at all, and beside what still belongs there."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from boxfit.car import Car
from boxfit.files.made_from import fingerprint
from boxfit.files.record import Origin
from boxfit.layout import Layout
from boxfit.module import Module


def origin_of(car: Car, module: Module | None = None, layout: Layout | None = None) -> Origin:
    """What results are made from now."""
    from boxfit.files.kept import text_mark
    from boxfit.files.layout_json import layout_as_data
    from boxfit.files.record import mark_of_layout

    files = fingerprint(car, module) if module else fingerprint(car)
    mark = mark_of_layout(layout_as_data(layout)) if layout else ""
    return Origin(files, mark, text_mark())


@contextmanager
def landing(target: Path, command: str, car: Car, module: Module | None, origin: Origin) -> Iterator[Path]:
    """A fresh folder for what `command` writes, which takes the place of `target` at the end.

    What another command made there from the same files and for the same layout comes along, and what boxfit
    did not write; what was removed or stays under another name is then told on stderr. Raises InputError.
    """
    from boxfit.files.carried import Carried, carry
    from boxfit.files.record import MADE_FROM, record_bytes, record_of
    from boxfit.files.results import whole_or_nothing
    from boxfit.files.shown import plain

    carried = Carried()
    heading = {"car": car.name} | ({"module": module.name} if module else {})

    def record(fresh: Path, before: Path | None) -> None:
        nonlocal carried
        made = record_of(command, origin, _contents(fresh))
        if before is not None:
            carried = carry(before, fresh, command, origin)
        (fresh / MADE_FROM).write_bytes(record_bytes(heading, {**carried.record, **made}))

    with whole_or_nothing(target, finish=record) as fresh:
        yield fresh
    for line in carried.told():
        print(plain(line), file=sys.stderr)


def _contents(folder: Path) -> Iterator[tuple[str, bytes]]:
    """Every file in a folder, by its name in it."""
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            yield path.relative_to(folder).as_posix(), path.read_bytes()
