"""What is bought and kept: written down, received, used, counted, thrown away; containers opened and tested."""

from dataclasses import asdict, dataclass, fields
from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from plates.bench.models import PlateSize
from plates.common.dates import ONE_PRESS
from plates.errors import StoreRefused
from plates.store.models import Supply, SupplyEvent

Kind = SupplyEvent.Kind


@dataclass(frozen=True, slots=True)
class Goods:
    """A supply as it is described: amounts in mg, µL or pieces, its pack's cost in minor units of money."""

    name: str
    kind: str
    unit: str
    pack: int
    pack_cost: int | None = None
    substance: str = ""
    size: PlateSize | None = None
    pieces_a_plate: int = 0
    least: int = 0
    kept: bool = True


@dataclass(frozen=True, slots=True)
class Moved:
    """What came, went or was counted, in the unit of the supply. `container_id`: which one was thrown away."""

    kind: str
    amount: int
    on: date
    cost: int | None = None
    label: str = ""
    container_id: int | None = None
    note: str = ""


@transaction.atomic
def describe(*, goods: Goods, supply_id: int | None = None) -> Supply:
    """Write a supply down, anew or in place of what stood there. What was measured in one unit stays in it."""
    supply = Supply.objects.select_for_update(of=("self",)).get(pk=supply_id) if supply_id else Supply()
    if supply_id and goods.unit != supply.unit and supply.events.exists():
        raise StoreRefused(_("Its events are in another unit: write a new supply down instead."))
    for each in fields(goods):
        setattr(supply, each.name, getattr(goods, each.name))
    try:
        with transaction.atomic():
            supply.save()
    except IntegrityError as error:
        if Supply.objects.filter(name=goods.name).exclude(pk=supply_id or 0).exists():
            taken = _("Another supply is called %(name)s. Give this one another name.")
            raise StoreRefused(taken % {"name": goods.name}) from error
        raise
    return supply


@transaction.atomic
def move(*, supply_id: int, moved: Moved, operator: User | None, now: datetime) -> SupplyEvent:
    """Write down what came, went, or was counted of a supply; the same twice at once is one press."""
    supply = Supply.objects.select_for_update(of=("self",)).get(pk=supply_id)
    if moved.container_id is not None:
        _container(supply, moved.container_id)
    pressed = supply.events.filter(operator=operator, **asdict(moved))
    if again := pressed.filter(at__gt=now - ONE_PRESS, at__lte=now).first():
        return again
    return SupplyEvent.objects.create(supply=supply, at=now, operator=operator, **asdict(moved))


@transaction.atomic
def see(
    *,
    supply_id: int,
    container_id: int,
    kind: str,
    on: date,
    operator: User | None,
    now: datetime,
    peroxide_tenths_ppm: int | None = None,
) -> SupplyEvent:
    """Write down that a container was opened, tested for peroxide, or looked unsound."""
    supply = Supply.objects.select_for_update(of=("self",)).get(pk=supply_id)
    container = _container(supply, container_id)
    seen = list(container.seen.order_by("pk"))
    if kind == Kind.OPENED and any(event.kind == Kind.OPENED for event in seen):
        raise StoreRefused(_("This container was opened already."))
    # In the order in which a container is used: received, opened, tested.
    if on < max(event.on for event in [container, *(each for each in seen if each.kind == Kind.OPENED)]):
        raise StoreRefused(_("That day lies before it was received or opened: look at the days."))
    if kind == Kind.OPENED and any(event.kind == Kind.TESTED and event.on < on for event in seen):
        raise StoreRefused(_("It was tested before that day: look at the days."))
    return SupplyEvent.objects.create(
        supply=supply,
        container=container,
        kind=kind,
        at=now,
        on=on,
        operator=operator,
        peroxide_tenths_ppm=peroxide_tenths_ppm,
    )


def _container(supply: Supply, container_id: int) -> SupplyEvent:
    """The container of that supply that was not thrown away. StoreRefused where there is none."""
    found = SupplyEvent.objects.filter(supply=supply, pk=container_id, kind=Kind.RECEIVED).first()
    if found is None:
        raise StoreRefused(_("There is no such container of this supply."))
    if found.seen.filter(kind=Kind.DISCARDED).exists():
        raise StoreRefused(_("This container went to the waste."))
    return found
