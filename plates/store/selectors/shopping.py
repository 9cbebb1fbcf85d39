"""What the booked weeks ahead take from the shelves, and what to buy for them."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction

from django.db.models import Count, Exists, OuterRef

from plates.bench.models import BenchJob, Plate, PlateSize, PlateSlot, Stage
from plates.chemistry.recipes.serialization import load
from plates.store import buying
from plates.store.buying import Mixed, Work
from plates.store.models import Batch, StoreRoom, Supply
from plates.store.selectors import batches
from plates.store.selectors.supplies import level_of, supplies

SILVER = ("silver_nitrate", "mg")


@dataclass(frozen=True, slots=True)
class Line:
    """One supply: how much there is, what the booked work takes, how many packs to buy and what they cost."""

    supply: Supply
    level: int
    order: buying.Order

    @property
    def cost(self) -> int | None:
        """Minor units of money for the packs; None where the price of a pack is not known."""
        return None if self.supply.pack_cost is None else self.supply.pack_cost * self.order.packs

    @property
    def short(self) -> int:
        """By how much it will not do."""
        return max(-self.order.after, 0)


@dataclass(frozen=True, slots=True)
class Shopping:
    """The whole list: the plates that are booked until a day, what they take of each solution, line by line."""

    until: date
    plates: int
    solutions: tuple[tuple[str, Fraction, Fraction], ...]
    lines: tuple[Line, ...]

    @property
    def to_buy(self) -> list[Line]:
        return [line for line in self.lines if line.order.packs]

    @property
    def cost(self) -> int:
        """Minor units of money for all that has a price."""
        return sum(line.cost or 0 for line in self.to_buy)

    @property
    def unpriced(self) -> bool:
        return any(line.cost is None for line in self.to_buy)


def booked_work(*, now: datetime, until: date) -> list[Work]:
    """The plates that are promised from today until a day and not poured yet, by size; one query."""
    alive = Plate.objects.filter(slot=OuterRef("pk")).exclude(stage=Stage.SPOILT)
    slots = PlateSlot.objects.filter(
        ~Exists(alive),
        given_up_at__isnull=True,
        job__in=BenchJob.objects.promised(now),
        job__day__on__gte=now.date(),
        job__day__on__lte=until,
    )
    counted = (
        slots.order_by().values_list("size", "job__day__bench__retake_chance").annotate(many=Count("pk"))
    )
    sizes = {size.pk: size for size in PlateSize.objects.all()}
    found: dict[int, tuple[int, Fraction]] = {}
    for size_id, retake, many in counted:
        plates, pours = found.get(size_id, (0, Fraction(0)))
        found[size_id] = (plates + many, pours + buying.poured(many, retake))
    return [
        Work(size_id, Fraction(sizes[size_id].area_cm2), plates, pours)
        for size_id, (plates, pours) in sorted(found.items())
    ]


def shopping(*, room: StoreRoom, now: datetime) -> Shopping:
    """What to buy so that the work of the weeks ahead can be done and the least of everything is left."""
    until = now.date() + timedelta(weeks=room.weeks_ahead)
    work = booked_work(now=now, until=until)
    wanted, on_hand = buying.solution_ml(work), ready_ml(on=now.date())
    needs = buying.chemicals(wanted, on_hand, newest_mixed())
    silver = buying.silver_mg(work, room.limits().target, room.carry_off())
    needs[SILVER] = needs.get(SILVER, Fraction(0)) + silver
    return Shopping(
        until=until,
        plates=sum(each.plates for each in work),
        solutions=tuple((kind, ml, on_hand.get(kind, Fraction(0))) for kind, ml in wanted.items()),
        lines=tuple(_line(supply, work, needs) for supply in supplies().filter(kept=True)),
    )


def ready_ml(*, on: date) -> dict[str, Fraction]:
    """mL of each solution on the shelf that has not passed its best, ripe or ripening."""
    found: dict[str, Fraction] = {}
    for kept in batches.on_the_shelf(on=on):
        if kept.condition in ("ready", "ripening"):
            kind = kept.batch.kind
            found[kind] = found.get(kind, Fraction(0)) + Fraction(kept.left.left, 1000)
    return found


def newest_mixed() -> dict[str, Mixed]:
    """What went into the batch of each kind that was mixed last; kinds of which no contents are known are left out."""
    found: dict[str, Mixed] = {}
    for batch in Batch.objects.exclude(contents=[]).order_by("mixed_at", "pk"):
        found[batch.kind] = Mixed(Fraction(batch.made_ul, 1000), load(batch.contents))
    return found


def _line(supply: Supply, work: Sequence[Work], needs: dict[buying.Chemical, Fraction]) -> Line:
    level = level_of(supply=supply).left
    if supply.kind == Supply.Kind.CHEMICAL:
        need: Fraction | int = needs.get((supply.substance, supply.unit), Fraction(0))
    else:
        need = buying.pieces(
            work,
            size_id=supply.size_id,
            a_plate=supply.pieces_a_plate,
            for_each_pour=supply.kind == Supply.Kind.BLANK,
        )
    return Line(supply, level, buying.order(level=level, need=need, least=supply.least, pack=supply.pack))
