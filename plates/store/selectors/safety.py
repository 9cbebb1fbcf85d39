"""What is at hand that can hurt: substances, ether and alcohol beside the studio's own figure, waste."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q, Sum
from django.utils.translation import gettext as _

from plates.chemistry.hazards.cautions import BURNS, Caution, cautions_for
from plates.chemistry.hazards.classification import Label
from plates.chemistry.hazards.substances import labels_of
from plates.chemistry.recipes.serialization import load
from plates.common.words import translated
from plates.store.models import Batch, Solution, StoreRoom, Supply, WasteContainer, WasteEntry
from plates.store.selectors import own_rates
from plates.store.selectors.bottles import batches, in_use, measured, on_hand, spent_by_clearing
from plates.store.selectors.supplies import level_of, supplies

UL_IN_ML = 1000
# Of these all is ether and alcohol, as far as fire goes.
BURNING_KINDS = (Solution.COLLODION, Solution.VARNISH)


@dataclass(frozen=True, slots=True)
class AtHand:
    """The batches and chemicals in the studio, and the keys of all substances in them."""

    batches: list[Batch]
    chemicals: list[Supply]
    substances: frozenset[str]

    @property
    def cautions(self) -> tuple[Caution, ...]:
        return cautions_for(self.substances)

    @property
    def labels(self) -> list[tuple[str, Label]]:
        """The key and the label of each substance that has a row, Danger first."""
        found = [(key, each) for key in sorted(self.substances) for each in labels_of([key])]
        return sorted(found, key=lambda each: ("Danger", "Warning", "").index(each[1].signal))


@dataclass(frozen=True, slots=True)
class Fire:
    """Millilitres of ether, alcohol and what is made of them, and the studio's own figure (None: none set)."""

    held_ml: int
    limit_ml: int | None

    @property
    def too_much(self) -> bool:
        return self.limit_ml is not None and self.held_ml > self.limit_ml


@dataclass(frozen=True, slots=True)
class Waste:
    container: WasteContainer
    held_ul: int


def at_hand() -> AtHand:
    """Batches that have not ended, and chemicals of which there is some."""
    batches = list(
        Batch.objects.filter(ended_at__isnull=True).prefetch_related("events").order_by("kind", "label")
    )
    chemicals = [
        each for each in supplies().filter(kept=True, kind=Supply.Kind.CHEMICAL) if level_of(supply=each).left
    ]
    found = {line.substance for batch in batches for line in load(batch.contents)}
    found |= {each.substance for each in chemicals} | {_of_kind(batch.kind) for batch in batches}
    return AtHand(batches, chemicals, frozenset(found - {"", "water"}))


def fire(*, room: StoreRoom) -> Fire:
    """What burns like ether and alcohol, by the counts of bottles and supplies."""
    here = at_hand()
    held = sum(
        level_of(supply=each).left
        for each in here.chemicals
        if each.substance in BURNS and each.unit == Supply.Unit.MICROLITRE
    )
    for batch in here.batches:
        if batch.kind in BURNING_KINDS:
            now = measured(batch)
            held += max(0, now.amount_ul + now.added_ul - now.taken_ul)
    return Fire(held // UL_IN_ML, room.fire_limit_ml)


def waste() -> list[Waste]:
    """The containers still in the studio and what is in each, by the log."""
    kept = Sum("entries__amount_ul", filter=Q(entries__kind=WasteEntry.Kind.KEPT), default=0)
    gone = Sum("entries__amount_ul", filter=Q(entries__kind=WasteEntry.Kind.COLLECTED), default=0)
    rows = WasteContainer.objects.filter(kept=True).annotate(put_in=kept, taken=gone)
    return [Waste(row, max(0, row.put_in - row.taken)) for row in rows]


def waste_log(*, newest: int = 200) -> list[WasteEntry]:
    """The log, the newest day first."""
    entries = WasteEntry.objects.select_related("container", "operator")
    return list(entries.order_by("-on", "-pk")[:newest])


def _of_kind(kind: str) -> str:
    """What a batch holds in any case, whatever was written down of it."""
    return {Solution.COLLODION: "collodion", Solution.BATH: "silver_nitrate", Solution.FIXER: ""}.get(
        Solution(kind), ""
    )


@dataclass(frozen=True, slots=True)
class FixerNow:
    """A fixer, the cm² of plate that it still fixes, and a sentence that says so or why it is spent."""

    label: str
    left_cm2: int
    sentence: str


def fixers(*, now: datetime) -> list[FixerNow]:
    """Every fixer that has not ended, those measured first before the others."""
    found = batches(kinds=[Solution.FIXER], now=now).get(Solution.FIXER, [])
    ul_a_cm2 = own_rates.rate(kind=Solution.FIXER, found=found).ml_a_cm2 * UL_IN_ML
    bottles = on_hand(kind=Solution.FIXER, found=found, ul_a_cm2=ul_a_cm2)
    return [
        _now(each.batch, int(bottle.left / ul_a_cm2))
        for each, bottle in zip(in_use(found), bottles, strict=True)
    ]


def _now(batch: Batch, left_cm2: int) -> FixerNow:
    if spent := spent_by_clearing(batch):
        return FixerNow(batch.label, left_cm2, translated(spent))
    if not left_cm2:
        return FixerNow(batch.label, 0, _("It has fixed all the plate that it is good for: make new fixer."))
    return FixerNow(batch.label, left_cm2, _("good for %(area)d cm² of plate more.") % {"area": left_cm2})
