"""PURE: from the rack to the day a plate can be collected: drying, varnish sessions, cure, pack.

`values` and `calendar` need nothing but the standard library; `outlook` loads numpy, which takes a moment: import it
only where a date is asked for.
"""

from plates.finishing.forecast.calendar import Hours, WorkDays, work_days
from plates.finishing.forecast.values import FinishingError, Lying, Session, Spread, Work

__all__ = ["FinishingError", "Hours", "Lying", "Session", "Spread", "Work", "WorkDays", "work_days"]
