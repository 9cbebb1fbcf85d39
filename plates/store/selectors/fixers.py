"""How each fixer in use stands, by the area it has fixed and by how long a plate takes to clear. Nothing writes."""

from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _

from plates.common.words import said
from plates.store.models import Batch, Solution
from plates.store.selectors import own_rates
from plates.store.selectors.bottles import batches, in_use, on_hand, spent_by_clearing

UL_IN_ML = 1000


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
        return FixerNow(batch.label, left_cm2, said(spent))
    if not left_cm2:
        return FixerNow(batch.label, 0, _("It has fixed all the plate that it is good for: make new fixer."))
    return FixerNow(batch.label, left_cm2, _("good for %(area)d cm² of plate more.") % {"area": left_cm2})
