"""The jobs behind the commands: search, judge, and write the results whole or not at all."""

from boxfit.jobs.build import build
from boxfit.jobs.check import check
from boxfit.jobs.compare import compared
from boxfit.jobs.going_on import JudgedWrongError, NothingFitsError, Search, Tell
from boxfit.jobs.laid_out import laid_out, laid_out_beside_others, write_layout
from boxfit.jobs.limits import limits
from boxfit.jobs.papers import papers
from boxfit.jobs.weigh import Asked, weigh

__all__ = [
    "Asked",
    "JudgedWrongError",
    "NothingFitsError",
    "Search",
    "Tell",
    "build",
    "check",
    "compared",
    "laid_out",
    "laid_out_beside_others",
    "limits",
    "papers",
    "weigh",
    "write_layout",
]
