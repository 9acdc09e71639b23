"""What the shops need besides solids and pictures: flats, stock sheets, lists, templates, all judged."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.jobs.going_on import refuse_faulty

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox
    from boxfit.box.wiring.figures import Electrics
    from boxfit.sheet.write_lists import WrittenLists


@dataclass(frozen=True)
class WorkshopFiles:
    """What was written: the lists with their notes, the flats' files, and what the fold shop would say."""

    lists: "WrittenLists"
    flats: tuple[str, ...]
    findings: tuple[str, ...]

    @property
    def notes(self) -> tuple[str, ...]:
        """What the maker should know."""
        return (*self.findings, *self.lists.notes)


def write_workshop_files(
    built: "tuple[BuiltBox, ...]", folder: Path, electrics: "Electrics | None" = None
) -> WorkshopFiles:
    """Flats of every box as DXF, stock sheets, lists and templates into the folder.

    Raises JudgedWrongError where the sheets as drawn are not what was asked for.
    """
    from boxfit.judge.nesting import judge_nesting
    from boxfit.sheet.cable_orders import cable_orders
    from boxfit.sheet.finding import told_once
    from boxfit.sheet.write import write_flats
    from boxfit.sheet.write_lists import write_lists

    flats = [write_flats(one.parts, one.bay.box, folder) for one in built]
    lists = write_lists(built, folder, tuple(cable_orders(electrics)) if electrics else ())
    found = judge_nesting(folder) if lists.nesting.sheets else ()
    refuse_faulty(found)
    return WorkshopFiles(
        lists,
        tuple(name for one in flats for name in one.files),
        told_once([finding for one in flats for finding in one.findings]),
    )
