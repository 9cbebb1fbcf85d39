"""What the material of a plate costs, by size, and of a kept one with those that were spoilt."""

from dataclasses import dataclass
from fractions import Fraction

from django.db.models import Count, Q

from plates.bench.models import Plate, PlateSize, SpoiltReason, Stage
from plates.chemistry.values import nearest
from plates.store import buying
from plates.store.buying import Chemical, Mixed, Work
from plates.store.models import Solution, StoreRoom, Supply
from plates.store.selectors.shopping import SILVER, newest_mixed


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the cost in minor units of money; None where no price leads to it."""

    name: str
    cost: Fraction | None


@dataclass(frozen=True, slots=True)
class SizeCost:
    """Of one size: the parts of a plate's cost, how many were poured, and how many of those were not spoilt."""

    size: PlateSize
    parts: tuple[Part, ...]
    poured: int
    kept: int

    @property
    def a_plate(self) -> int:
        """Minor units of money for the material of one plate, as far as prices are known."""
        return int(nearest(self._known, Fraction(1)))

    @property
    def a_kept_plate(self) -> int | None:
        """The same for each plate that was kept, those that were spoilt paid by it; None before one was kept."""
        return int(nearest(self._known * self.poured / self.kept, Fraction(1))) if self.kept else None

    @property
    def unknown(self) -> list[str]:
        return [part.name for part in self.parts if part.cost is None]

    @property
    def _known(self) -> Fraction:
        return sum((part.cost for part in self.parts if part.cost is not None), Fraction(0))


def costs(*, room: StoreRoom) -> list[SizeCost]:
    """Every size that is made or has bare plates in stock, the smallest first."""
    goods = list(Supply.objects.filter(kept=True))
    prices = {
        (supply.substance, supply.unit): cost
        for supply in goods
        if supply.substance and (cost := supply.cost_of_one) is not None
    }
    mixed = newest_mixed()
    counted = PlateSize.objects.filter(Q(offered=True) | Q(supplies__kind=Supply.Kind.BLANK)).distinct()
    tries = _tries()
    return [
        SizeCost(size, _parts(size, goods, prices, mixed, room), *tries.get(size.pk, (0, 0)))
        for size in counted
    ]


def _parts(
    size: PlateSize,
    goods: list[Supply],
    prices: dict[Chemical, Fraction],
    mixed: dict[str, Mixed],
    room: StoreRoom,
) -> tuple[Part, ...]:
    plate = Work(size.pk, Fraction(size.area_cm2), 1, Fraction(1))
    pieces = [
        Part(each.name, None if each.cost_of_one is None else each.cost_of_one * each.pieces_a_plate)
        for each in goods
        if each.pieces_a_plate and each.size_id in (None, size.pk)
    ]
    if not any(each.kind == Supply.Kind.BLANK and each.size_id == size.pk for each in goods):
        pieces.insert(0, Part(str(Supply.Kind.BLANK.label), None))
    solutions = [
        Part(str(Solution(kind).label), _cost_of(ml, mixed.get(kind), prices))
        for kind, ml in buying.solution_ml([plate]).items()
    ]
    silver = buying.silver_mg([plate], room.limits().target, room.carry_off())
    carried = Part(str(Solution.BATH.label), silver * prices[SILVER] if SILVER in prices else None)
    return (*pieces, *solutions, carried)


def _cost_of(ml: Fraction, mixed: Mixed | None, prices: dict[Chemical, Fraction]) -> Fraction | None:
    """So much of a solution by what went into the newest batch; None where a price of that is missing.

    Water is taken for free.
    """
    if mixed is None:
        return None
    taken = {key: amount for key, amount in mixed.for_one_ml().items() if key[0] != "water"}
    if not taken or any(key not in prices for key in taken) or any(_unlisted(mixed)):
        return None
    return sum((amount * prices[key] for key, amount in taken.items()), Fraction(0)) * ml


def _unlisted(mixed: Mixed) -> list[bool]:
    """What has no substance has no price either."""
    return [not line.substance and not line.makes_up for line in mixed.lines]


def _tries() -> dict[int, tuple[int, int]]:
    """How many plates of each size were poured, and how many were not spoilt."""
    poured = Plate.objects.exclude(spoilt_reason=SpoiltReason.MISTAKE).order_by()
    rows = poured.values_list("size").annotate(
        all=Count("pk"), kept=Count("pk", filter=~Q(stage=Stage.SPOILT))
    )
    return {size: (made, kept) for size, made, kept in rows}
