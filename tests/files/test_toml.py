"""Files that cannot be read at all are told in one line each."""

import os
from pathlib import Path

import pytest

from boxfit.files.problems import InputError
from boxfit.files.toml import read_table

NOT_TEXT = 'name = "Größe"'.encode("latin-1")


def told(path: Path) -> str:
    with pytest.raises(InputError) as error:
        read_table(path, path.name)
    return str(error.value).split("\n")[0]


@pytest.mark.parametrize(
    ("held", "message"),
    [
        (b'name = "a\n', "x.toml: line 1, column 10: is not TOML: illegal character '\\n'"),
        (b"a = [1,\n", "x.toml: is not TOML: invalid value (at end of document)"),
        (NOT_TEXT, "x.toml: is not UTF-8 text"),
        (b"#" * 1_000_001, "x.toml: is larger than 1 MB"),
        (b"a = " + b"[" * 5000, "x.toml: holds a number too long or tables too deep"),
        (b".".join([b"a"] * 5000) + b" = 1", "x.toml: holds a number too long or tables too deep"),
        (b"a = " + b"1" * 5000, "x.toml: holds a number too long or tables too deep"),
        (b"a.b = [0, 0x" + b"f" * 5000 + b"]", "x.toml: a.b[2]: is a whole number of more than 64 bits"),
    ],
)
def test_a_file_that_is_not_toml(held: bytes, message: str, tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(held)
    assert message == told(path)


def test_no_file_a_folder_and_a_pipe(tmp_path: Path) -> None:
    assert told(tmp_path / "x.toml") == "x.toml: there is no such file"
    assert told(tmp_path) == f"{tmp_path.name}: is a folder, not a file"
    os.mkfifo(tmp_path / "pipe")
    assert told(tmp_path / "pipe") == "pipe: is not a plain file"


def test_a_name_that_no_file_can_have() -> None:
    assert told(Path("x" * 5000)).endswith(": cannot be read: file name too long")
    assert told(Path("a\0b")).startswith("a\0b: ")


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "x.toml"
    path.write_text("a = 1")

    def refuse(*_arguments: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert told(path) == "x.toml: cannot be read: permission denied"
