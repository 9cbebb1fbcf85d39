"""A bath is read and cared for: each is written down as it was, and never changed."""

from dataclasses import asdict, dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from plates.chemistry.values import ChemistryValueError
from plates.common.dates import ONE_PRESS
from plates.common.words import translated
from plates.errors import StoreRefused
from plates.store.models import Batch, BathCare, BathReading, Solution
from plates.store.selectors.bath_readings import reading_of


@dataclass(frozen=True, slots=True)
class Reading:
    """What was measured, in the small units of `BathReading`; None and empty: not measured."""

    gravity_e4: int | None = None
    scale: str = ""
    celsius_tenths: int | None = None
    grains_tenths: int | None = None
    ounce: str = ""
    sample_ul: int | None = None
    titrant_ul: int | None = None
    titrant_mmol_l: int | None = None
    ph_hundredths: int | None = None
    volume_ul: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Done:
    """What was done to a bath, in the small units of `BathCare`."""

    kind: str
    bench_id: int | None = None
    salt_mg: int | None = None
    poured_ul: int | None = None
    stock_mg_l: int | None = None
    note: str = ""


@transaction.atomic
def record_reading(*, batch_id: int, reading: Reading, operator: User | None, now: datetime) -> BathReading:
    """Write a reading of a bath down. StoreRefused for one that no bath of silver nitrate gives."""
    row = BathReading(batch=_bath(batch_id), at=now, operator=operator, **asdict(reading))
    try:
        reading_of(row, 0)
    except ChemistryValueError as error:
        raise StoreRefused(translated(error)) from error
    row.save(force_insert=True)
    return row


@transaction.atomic
def care(*, batch_id: int, done: Done, operator: User | None, now: datetime) -> BathCare:
    """Write down what was done to a bath: put to use, rested, filtered, sunned, something added or poured off.

    The same twice at once is one press.
    """
    bath = _bath(batch_id)
    pressed = bath.care.filter(operator=operator, **asdict(done))
    if again := pressed.filter(at__gt=now - ONE_PRESS, at__lte=now).first():
        return again
    return BathCare.objects.create(batch=bath, at=now, operator=operator, **asdict(done))


def _bath(batch_id: int) -> Batch:
    """The row of a bath that is still there. StoreRefused for anything else."""
    batch = Batch.objects.select_for_update(of=("self",)).get(pk=batch_id)
    if batch.kind != Solution.BATH:
        raise StoreRefused(_("%(label)s is no silver bath.") % {"label": batch.label})
    if batch.ended_at is not None:
        ended = _("%(label)s ended on %(day)s: nothing can be written down for it any more.")
        raise StoreRefused(ended % {"label": batch.label, "day": f"{batch.ended_at:%Y-%m-%d}"})
    return batch
