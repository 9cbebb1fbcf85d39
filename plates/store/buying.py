"""What the booked work will take, and what to buy for it. Pure numbers: work in, amounts out, nothing is looked up.

A plate that is spoilt is made again: of every hundred kept, a hundred divided by the share that succeeds are poured.
Solutions are reckoned by area at the usual rates, silver nitrate by what plates carry off at the strength aimed at.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from plates.chemistry.bath.drag_out import USUAL, CarryOff, silver_nitrate_of_plate
from plates.chemistry.bath.strength import Strength
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.stock.consumption import FIXER_CM2_A_LITRE, RATES

# A substance and the measure it is kept in: "mg" or "ul".
Chemical = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Work:
    """So many plates of one size that are promised, and how many of it will be poured for them."""

    size_id: int
    area_cm2: Fraction
    plates: int
    pours: Fraction


@dataclass(frozen=True, slots=True)
class Mixed:
    """What went into so many mL of a solution."""

    millilitres: Fraction
    lines: tuple[Ingredient, ...]

    def for_one_ml(self) -> dict[Chemical, Fraction]:
        """mg or µL of each substance in one mL."""
        found: dict[Chemical, Fraction] = {}
        for line in self.lines:
            if line.substance and line.quantity:
                key = (line.substance, "mg" if line.quantity.unit.measures == "mass" else "ul")
                found[key] = found.get(key, Fraction(0)) + line.quantity.metric * 1000 / self.millilitres
        return found


@dataclass(frozen=True, slots=True)
class Order:
    """What is left after the work (below 0: short), how many packs bring it to the least that is to be kept."""

    need: int
    after: int
    packs: int


def poured(plates: int, retake_percent: int) -> Fraction:
    """How many plates are poured on the average so that so many are kept; 95 in a hundred spoilt at the most."""
    return Fraction(plates * 100, 100 - min(retake_percent, 95))


def solution_ml(work: Iterable[Work]) -> dict[str, Fraction]:
    """mL of each solution that the work takes; varnish for kept plates only."""
    found = dict.fromkeys(("collodion", "developer", "fixer", "varnish"), Fraction(0))
    for each in work:
        for kind, rate in solution_rates().items():
            times = Fraction(each.plates) if kind == "varnish" else each.pours
            found[kind] += rate * each.area_cm2 * times
    return found


def solution_rates() -> dict[str, Fraction]:
    """mL of each solution for a cm² of plate, as is usual."""
    rates: dict[str, Fraction] = {kind: rate.usual for kind, rate in RATES.items()}
    return rates | {"fixer": Fraction(1000, FIXER_CM2_A_LITRE)}


def silver_mg(work: Iterable[Work], target: Strength, rates: CarryOff = USUAL) -> Fraction:
    """Milligrams of silver nitrate that the work carries off from a bath of that strength."""
    return sum(
        (silver_nitrate_of_plate(each.area_cm2, target, rates) * 1000 * each.pours for each in work),
        Fraction(0),
    )


def pieces(work: Iterable[Work], *, size_id: int | None, a_plate: int, for_each_pour: bool) -> int:
    """Pieces that go with plates of a size, or of any; rounded up, for there is no part of a plate."""
    of_it = [each for each in work if size_id in (None, each.size_id)]
    count = sum((each.pours if for_each_pour else Fraction(each.plates) for each in of_it), Fraction(0))
    return _up(count * a_plate)


def chemicals(
    wanted_ml: Mapping[str, Fraction], on_hand_ml: Mapping[str, Fraction], mixed: Mapping[str, Mixed]
) -> dict[Chemical, Fraction]:
    """What has to go into the solutions that are not mixed yet, by the batch of each kind that was mixed last."""
    found: dict[Chemical, Fraction] = {}
    for kind, wanted in wanted_ml.items():
        to_mix = max(wanted - on_hand_ml.get(kind, Fraction(0)), Fraction(0))
        for chemical, amount in (mixed[kind].for_one_ml() if kind in mixed else {}).items():
            found[chemical] = found.get(chemical, Fraction(0)) + amount * to_mix
    return found


def order(*, level: int, need: Fraction | int, least: int, pack: int) -> Order:
    """How many whole packs to buy so that `least` is left when the work is done."""
    taken = _up(Fraction(need))
    short = taken + least - level
    return Order(need=taken, after=level - taken, packs=max(-(-short // pack), 0))


def _up(value: Fraction) -> int:
    return -(-value.numerator // value.denominator)
