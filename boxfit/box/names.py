"""What parts are called in files."""

from hashlib import sha256

LONGEST = 200
"""Bytes of a stem at most: disks know no name over 255, and what tells its kind still goes behind it."""


def file_stem(name: str) -> str:
    """A part's name as a file name; one that is too long for a disk is cut short and ends in a number of it.

    >>> file_stem("front bay box 1 tray")
    'front-bay-box-1-tray'
    >>> file_stem("front bay " * 30)[180:]
    'front-bay-fr-fd4aeb8'
    """
    stem = "-".join("".join(sign if sign.isalnum() else " " for sign in name.lower()).split())
    whole = stem.encode()
    if len(whole) <= LONGEST:
        return stem
    number = sha256(whole).hexdigest()[:7]
    return f"{whole[: LONGEST - 8].decode(errors='ignore').rstrip('-')}-{number}"
