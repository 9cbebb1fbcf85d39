"""How much plate the bath at a bench still takes before it is too weak, or due to be rested in light."""

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from django.db.models import Max

from plates.chemistry.bath.life import cm2_until_rest, cm2_until_weak
from plates.store.models import BathCare, StoreRoom
from plates.store.selectors.bath_plates import plates_through
from plates.store.selectors.baths import bath_in_use, state


@dataclass(frozen=True, slots=True)
class BathLeft:
    """Whole cm² of plate; None where the strength is not known, or lasts longer than is worth counting."""

    until_weak_cm2: int | None
    until_light_cm2: int


def bath_left(*, bench_id: int, room: StoreRoom, now: datetime) -> BathLeft | None:
    """The bath in use at a bench now, by its book; None where none was put to use there."""
    batch = bath_in_use(bench_id=bench_id, at=now)
    if batch is None:
        return None
    limits = room.limits()
    bath = state(batch=batch, room=room, now=now).book.bath
    sunned = batch.care.filter(kind=BathCare.Kind.SUNNED, at__lte=now).aggregate(last=Max("at"))["last"]
    since = sunned or batch.mixed_at
    dips = plates_through(batch=batch, now=now)
    made = sum((dip.area_cm2 for dip in dips if dip.at > since), Fraction(0))
    return BathLeft(
        until_weak_cm2=None if bath is None else cm2_until_weak(bath, limits, room.carry_off()),
        until_light_cm2=cm2_until_rest(made, limits),
    )
