"""All flats of a box as DXF files, and what the fold shop would say of them."""

from dataclasses import dataclass
from pathlib import Path

from boxfit.bay import BoxRules
from boxfit.box.names import file_stem
from boxfit.box.parts import BoxParts
from boxfit.sheet.checks import findings_of
from boxfit.sheet.dxf import dxf_of
from boxfit.sheet.finding import Finding
from boxfit.sheet.flats import flats_of


@dataclass(frozen=True)
class WrittenFlats:
    """The files written, by name, and the shop's rules that are not kept."""

    files: tuple[str, ...]
    findings: tuple[Finding, ...]


def write_flats(parts: BoxParts, rules: BoxRules, folder: Path) -> WrittenFlats:
    """Writes one DXF for each flat of a box into the folder; none where the box is printed.

    Raises OSError where a file cannot be written.
    """
    flats = flats_of(parts, rules)
    files = tuple(f"{file_stem(flat.name)}-flat.dxf" for flat in flats)
    for name, flat in zip(files, flats, strict=True):
        (folder / name).write_bytes(dxf_of(flat))
    return WrittenFlats(
        files, tuple(finding for flat in flats for finding in findings_of(flat, rules.fold_shop))
    )
