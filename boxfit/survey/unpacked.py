"""A zip read with care: what it claims to hold and what comes out are both bounded."""

import zipfile
import zlib
from collections.abc import Iterator
from types import TracebackType
from typing import BinaryIO, Self
from xml.parsers import expat

from boxfit.survey.raw import broken

MOST_UNPACKED = 200_000_000
"""Bytes, of all files in it; two million triangles take some 150 million."""
MOST_FILES = 10_000
_CHUNK = 1 << 18
_LONGEST_RELATIONS = 1_000_000
_FAULTS = (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError, ValueError, KeyError)


class Unpacked:
    """The files of a .3mf. Every method raises SurveyError."""

    def __init__(self, file: BinaryIO) -> None:
        try:
            self._zip = zipfile.ZipFile(file)
        except _FAULTS as fault:
            raise broken("a .3mf is a zip, and this is none that opens") from fault
        self._left = MOST_UNPACKED
        infos = self._zip.infolist()
        if len(infos) > MOST_FILES or sum(info.file_size for info in infos) > MOST_UNPACKED:
            self._zip.close()
            raise broken(f"unpacked it is over {MOST_UNPACKED // 1_000_000} MB or {MOST_FILES} files")
        self._names = {info.filename.strip("/").lower(): info for info in infos}

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._zip.close()

    def model_name(self) -> str:
        """The model that the relations name as the first, or the usual one."""
        name = "3d/3dmodel.model"
        if "_rels/.rels" in self._names:
            found = _first_model(b"".join(self.chunks("_rels/.rels", _LONGEST_RELATIONS)))
            name = found if found in self._names else name
        if name not in self._names:
            raise broken("there is no 3D/3dmodel.model in it")
        return name

    def chunks(self, name: str, most: int = MOST_UNPACKED) -> Iterator[bytes]:
        """The content of a file in it, piece by piece."""
        info = self._names.get(name)
        if info is None:
            raise broken(f"it names a part {name[:60]!a} that is not there")
        if info.compress_type not in {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}:
            raise broken("it is packed in a way that no .3mf may be")
        left = min(most, self._left)
        try:
            with self._zip.open(info) as file:
                while chunk := file.read(_CHUNK):
                    left -= len(chunk)
                    self._left -= len(chunk)
                    if left < 0:
                        raise broken(f"unpacked it is over {most // 1_000_000} MB")
                    yield chunk
        except _FAULTS as fault:
            raise broken(f"its part {name[:60]!a} does not unpack") from fault


def _first_model(relations: bytes) -> str:
    """The target of the first relation to a model, "" where there is none."""
    found: list[str] = []

    def started(name: str, attributes: dict[str, str]) -> None:
        if name.rpartition(":")[2] == "Relationship" and attributes.get("Type", "").endswith("/3dmodel"):
            found.append(attributes.get("Target", "").strip("/").lower())

    parser = expat.ParserCreate()
    parser.StartElementHandler = started
    try:
        parser.Parse(relations, True)
    except expat.ExpatError:
        return ""
    return found[0] if found else ""
