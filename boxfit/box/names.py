"""What parts are called in files."""


def file_stem(name: str) -> str:
    """A part's name as a file name.

    >>> file_stem("front bay box 1 tray")
    'front-bay-box-1-tray'
    """
    return "-".join("".join(sign if sign.isalnum() else " " for sign in name.lower()).split())
