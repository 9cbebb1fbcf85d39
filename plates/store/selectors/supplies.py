"""What is in stock: levels, containers, and ether that must be tested."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from django.db.models import Prefetch, QuerySet

from plates.chemistry.hazards.ether import Ether, EtherAnswer, judge
from plates.store.levels import Level, level
from plates.store.models import StoreRoom, Supply, SupplyEvent

ETHER = "ether"
Kind = SupplyEvent.Kind


@dataclass(frozen=True, slots=True)
class Container:
    """One container as it was received, with what was seen of it, and for ether what to do with it today."""

    received: SupplyEvent
    opened_on: date | None
    tested_on: date | None
    verdict: EtherAnswer | None


@dataclass(frozen=True, slots=True)
class InStock:
    supply: Supply
    level: Level
    containers: tuple[Container, ...]

    @property
    def urgent(self) -> list[Container]:
        """The containers that are not simply to be used."""
        return [each for each in self.containers if each.verdict and each.verdict.verdict != "use"]


def supplies() -> QuerySet[Supply]:
    """Supplies with their size and events at hand, in order of time."""
    events = SupplyEvent.objects.select_related("operator").order_by("at", "pk")
    return Supply.objects.select_related("size").prefetch_related(Prefetch("events", events))


def in_stock(*, on: date, ether_months: int) -> list[InStock]:
    """Everything that is still kept, by kind and name; two queries."""
    kept = supplies().filter(kept=True)
    return [stock_of(supply=each, on=on, ether_months=ether_months) for each in kept]


def stock_of(*, supply: Supply, on: date, ether_months: int) -> InStock:
    """The level and the containers of one supply; needs its events at hand."""
    return InStock(supply, level_of(supply=supply), _containers(supply, on, ether_months))


def level_of(*, supply: Supply) -> Level:
    """How much there is, in the unit of the supply; needs its events at hand."""
    return level(0, ((event.kind, event.amount) for event in supply.events.all()))


def _containers(supply: Supply, on: date, months: int) -> tuple[Container, ...]:
    """The containers that were not thrown away, the oldest first. Other chemicals than ether have no verdict."""
    events = list(supply.events.all())
    gone = {event.container_id for event in events if event.kind == Kind.DISCARDED}
    seen: dict[int, list[SupplyEvent]] = {}
    for event in events:
        if event.container_id:
            seen.setdefault(event.container_id, []).append(event)
    return tuple(
        _container(event, seen.get(event.pk, []), supply.substance == ETHER, on, months)
        for event in events
        if event.kind == Kind.RECEIVED and event.pk not in gone
    )


def _container(
    received: SupplyEvent, seen: list[SupplyEvent], is_ether: bool, on: date, months: int
) -> Container:
    opened = next((event.on for event in seen if event.kind == Kind.OPENED), None)
    tests = [event for event in seen if event.kind == Kind.TESTED]
    test = max(tests, key=lambda event: (event.on, event.pk), default=None)
    can = Ether(
        received_on=received.on,
        opened_on=opened,
        tested_on=test.on if test else None,
        peroxide_ppm=Fraction(test.peroxide_tenths_ppm or 0, 10) if test else None,
        sound=all(event.kind != Kind.UNSOUND for event in seen),
    )
    return Container(
        received, opened, can.tested_on, judge(can, on, every_months=months) if is_ether else None
    )


def figures() -> StoreRoom:
    """What the studio has set, or what is usual."""
    return StoreRoom.objects.first() or StoreRoom(pk=1)
