"""What is said on the terminal once the papers are written."""

from boxfit.papers.case import Case
from boxfit.papers.cover import against
from boxfit.report.columns import listed


def said(case: Case, pages: int, how: str) -> str:
    """How many pages, from what they were made, and what an inspector would ask first."""
    lines = [f"{case.title}: papers of {pages} pages", f"  {how}"]
    lines += ["what stands against it", *listed(tuple(against(case)))]
    return "\n".join(lines) + "\n"
