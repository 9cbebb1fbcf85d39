"""What hangs over the wash and what is stuck to plates: the rack sheet and labels, as PDF."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.common import paper as press
from bookings.diary.models import SittingDay
from bookings.orders.models import Sitting
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio
from plates.bench.models import Plate, PlateSize, Stage
from plates.bench.selectors import made_on
from plates.common.words import within
from plates.finishing.selectors import wash as racks

# A label lies on the back of the plate with this much of the plate round it, and is never wider than that.
MARGIN_MM = 3
WIDEST_MM = 60
NARROWEST_MM = 20  # what still holds the number; a smaller plate has its label on the sleeve only


@dataclass(frozen=True, slots=True)
class RackLine:
    """A plate on the rack sheet in words; times on the venue's clock, empty where they are not known yet."""

    number: str
    size: str
    sitting: str
    places: str
    washed: str
    really: bool
    lift_from: str
    lift_by: str
    done: list[str]


@dataclass(frozen=True, slots=True)
class Label:
    """One plate on its label; `width_mm` is None where the plate is too small to carry one."""

    number: int
    size: str
    sides: str
    on: str
    batch: str
    width_mm: int | None


def rack_sheet_pdf(day: SittingDay, *, now: datetime, paper: press.Paper | None = None) -> bytes:
    """What is or comes into the wash on a day: its place, when it may be lifted, and boxes for what follows."""
    studio, hours = the_studio(), day.bench_day
    called = _called(day)
    words = {
        "studio": studio,
        "day": day,
        "date": formats.long_date(hours.on, studio.locale),
        "zone": day.venue.zone,
        "offset": formats.offset(day.local(hours.opens_at)),
        "racks_empty_by": formats.clock(day.local(hours.racks_empty_by)),
        "printed": formats.moment(day.local(now), studio.locale),
        "lines": [_line(day, each, called) for each in racks.rack_plates(day=hours, now=now)],
        "left_over": [(plate, _since(day, plate, studio)) for plate in racks.left_over(day=hours)],
    }
    return press.pdf(
        "bookings/handover/papers/rack_sheet.html", words, paper=paper or press.Paper.of(studio.country)
    )


def label_pdf(plate: Plate, *, paper: press.Paper | None = None) -> bytes:
    """The label for the back of a plate and the one for its sleeve. No client's name stands on either."""
    studio = the_studio()
    words = {"studio": studio, "label": _label(plate, plate.slot.job.day.on, studio)}
    return press.pdf(
        "bookings/handover/papers/label.html", words, paper=paper or press.Paper.of(studio.country)
    )


def day_labels_pdf(day: SittingDay, *, paper: press.Paper | None = None) -> bytes:
    """The labels of every plate of a day that was made and not given up, in the order of their numbers."""
    studio = the_studio()
    words = {
        "studio": studio,
        "day": day,
        "date": formats.long_date(day.bench_day.on, studio.locale),
        "labels": [_label(plate, day.bench_day.on, studio) for plate in made_on(day=day.bench_day)],
    }
    return press.pdf(
        "bookings/handover/papers/labels.html", words, paper=paper or press.Paper.of(studio.country)
    )


def back_width_mm(size: PlateSize) -> int | None:
    """How wide the label on the back of such a plate is; None where it does not fit."""
    room = int(min(size.width_mm, size.height_mm)) - 2 * MARGIN_MM
    return min(room, WIDEST_MM) if room >= NARROWEST_MM else None


def _label(plate: Plate, on: date, studio: Studio) -> Label:
    facts, size = getattr(plate, "facts", None), plate.size  # the row is missing where nothing was noted
    return Label(
        number=plate.number,
        size=size.name,
        sides=f"{size.width_mm:.0f} × {size.height_mm:.0f} mm",
        on=formats.short_date(on, studio.locale),
        batch=facts.batch if facts else "",
        width_mm=back_width_mm(size),
    )


def _called(day: SittingDay) -> dict[int, str]:
    """What each sitting is called on the wall, by its job."""
    found = Sitting.objects.filter(bench_job__day=day.bench_day).select_related("bench_job", "order__client")
    return {
        each.bench_job_id: f"{formats.clock(day.local(each.bench_job.starts_at))} "
        f"{each.order.client.name if each.order.client else each.order.reference}"
        for each in found
    }


def _line(day: SittingDay, each: racks.RackPlate, called: dict[int, str]) -> RackLine:
    def clock(at: datetime | None) -> str:
        return "" if at is None else formats.clock(day.local(at))

    return RackLine(
        number=str(each.plate.number) if each.plate else "",
        size=each.size.name,
        sitting=called.get(each.job_id, ""),
        places=_in_words(each.places),
        washed=clock(each.washed_from),
        really=each.in_wash,
        lift_from=clock(each.lift_from),
        lift_by=clock(each.lift_by),
        done=[clock(each.reached.get(stage)) for stage in (Stage.DRYING, Stage.VARNISHED, Stage.READY)],
    )


def _in_words(places: Sequence[int]) -> str:
    return " + ".join(str(place) for place in places)


def _since(day: SittingDay, plate: Plate, studio: Studio) -> str:
    at = day.local(plate.stage_at)
    return _("{stage} since {date}, {time}").format(
        stage=within(plate.get_stage_display()),
        date=formats.long_date(at.date(), studio.locale),
        time=f"{at:%H:%M}",
    )
