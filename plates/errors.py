"""What can be refused on the physical side, each as a sentence a person can act on."""

from __future__ import annotations

from datetime import UTC, datetime, tzinfo
from typing import TYPE_CHECKING

from django.utils.translation import gettext

from plates.capacity import Refusal, Sitting
from plates.capacity.refusals import explain
from plates.common.stock_words import bath_reason, named, remedy

if TYPE_CHECKING:
    from plates.bench.models import BenchDay


class PlatesError(Exception):
    """Base of everything this app refuses. `str()` of it is fit to be shown; `status` is what a page answers with."""

    status = 409


class BenchFull(PlatesError):
    """The bench cannot make that order at that time: what binds, from when to when, and which times would do.

    `asked` is what was refused on the day as it then stood, `excluding_job` the job that would give up its present
    place for it, if any.
    """

    def __init__(
        self, day: BenchDay, refusal: Refusal, *, asked: Sitting, excluding_job: int | None = None
    ) -> None:
        super().__init__(day, refusal)
        self.day = day
        self.refusal = refusal
        self.asked = asked
        self.excluding_job = excluding_job

    def __str__(self) -> str:
        return self.sentence(UTC)

    def sentence(self, zone: tzinfo) -> str:
        """Say it on the clock of `zone`; the physical side itself knows no zone."""

        def clock(minute: int) -> str:
            return f"{self.day.instant(minute).astimezone(zone):%H:%M}"

        reason = bath_reason(self.refusal)
        if reason:
            return f"{reason} {explain.free(self.refusal, clock, gettext)}"
        return f"{explain.sentence(named(self.refusal), clock, gettext)} {remedy(self.refusal)}".rstrip()

    @property
    def nearest(self) -> list[datetime]:
        """The nearest start times that would do."""
        return [self.day.instant(minute) for minute in self.refusal.nearest]


class StartPassed(PlatesError):
    """The asked start lies in the past or between two minutes."""


class JobReleased(PlatesError):
    """The place was given back and cannot be confirmed or moved."""


class PlaceGone(PlatesError):
    """The place of a lapsed sitting was sold before its first plate was poured."""


class StageOutOfOrder(PlatesError):
    """A plate was asked to do something its present stage does not allow."""


class NotDry(PlatesError):
    """Plates that have not lain long enough to be varnished, or varnished ones that cannot be packed yet."""


class StillUnderWay(PlatesError):
    """A sitting is not over without a plate: one is being made or ready, or none was tried yet."""


class TooLate(PlatesError):
    """A press can be taken back for a few seconds only."""


class PressRefused(PlatesError):
    """A press made earlier, in the dark tent, that can no longer be placed."""


class SlotTaken(PlatesError):
    """A plate for this place in the order is already being made."""


class BenchPromised(PlatesError):
    """A change to the bench or its hours would break promises already made."""


class TimingRefused(PlatesError):
    """Minutes that the plate log does not teach, or that no bench could work by."""


class PictureRefused(PlatesError):
    """A file that is no picture of a plate, or too large to be taken in."""


class TimesUnknown(PlatesError):
    """The new times of a day could not be worked out."""


class StoreRefused(PlatesError):
    """What the store room cannot do: a label that is taken, a batch that has ended, a recipe that is not allowed."""
