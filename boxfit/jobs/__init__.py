"""The jobs behind the commands: search, judge, and write the results whole or not at all."""

from boxfit.jobs.build import build
from boxfit.jobs.check import check
from boxfit.jobs.compare import Comparison, compare, refuse_order
from boxfit.jobs.going_on import Count, JudgedWrongError, NothingFitsError, Search, StoppedError, Tell
from boxfit.jobs.holding import laid_out_beside_others
from boxfit.jobs.laid_out import laid_out, write_layout
from boxfit.jobs.limits import limits
from boxfit.jobs.new import new
from boxfit.jobs.papers import papers
from boxfit.jobs.sweep import Means
from boxfit.jobs.weigh import Asked, weigh

__all__ = [
    "Asked",
    "Comparison",
    "Count",
    "JudgedWrongError",
    "Means",
    "NothingFitsError",
    "Search",
    "StoppedError",
    "Tell",
    "build",
    "check",
    "compare",
    "laid_out",
    "laid_out_beside_others",
    "limits",
    "new",
    "papers",
    "refuse_order",
    "weigh",
    "write_layout",
]
