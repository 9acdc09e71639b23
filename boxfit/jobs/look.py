"""What `boxfit check` says of things that are no car: a bare scan, or modules. Nothing is written."""

from pathlib import Path


def look(path: Path) -> str:
    """What is to be told; empty where a car is meant.

    Raises InputError with everything that is wrong in the files.
    """
    from boxfit.files.modules import is_modules, read_modules
    from boxfit.files.start import is_bare_scan, start_text

    if is_bare_scan(path):
        return start_text(path)
    if is_modules(path):
        from boxfit.report.modules_text import modules_text

        return modules_text(read_modules(path))
    return ""
