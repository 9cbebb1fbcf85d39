"""What becomes of a sitting that gave no plate fit to be handed over. Nothing here writes."""

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.errors import NotByTheTerms
from bookings.orders.models import Order
from bookings.pricing.models import NoPlate
from plates.bench.selectors import plates as ledger

BY_THE_TERMS = {
    NoPlate.REFUND: gettext_lazy("everything is paid back when no plate could be made"),
    NoPlate.REBOOK: gettext_lazy("there is another sitting without charge when no plate could be made"),
}


@dataclass(frozen=True, slots=True)
class WithoutPlate:
    """What the terms of the order allow: pay everything back, make another sitting without charge, or either."""

    refund: bool
    rebook: bool


def without_plate(order: Order) -> WithoutPlate | None:
    """The ways on for an order whose sitting was begun and whose every plate was given up; None for any other."""
    job = order.sitting.bench_job
    if order.cancelled_at is not None or order.placed_at is None or job.begun_at is None:
        return None
    if any(ledger.live_plate(slot) for slot in ledger.slots_of(job_ids=[job.pk])[job.pk]):
        return None
    rule = order.terms.no_plate
    return WithoutPlate(refund=rule != NoPlate.REBOOK, rebook=rule != NoPlate.REFUND)


def refuse_other_rule(*, order: Order, wanted: NoPlate) -> None:
    """Raise NotByTheTerms when the terms of the order say something else than `wanted`."""
    rule = NoPlate(order.terms.no_plate)
    if rule not in (wanted, NoPlate.CHOICE):
        raise NotByTheTerms(
            _("By the terms of this order (version {terms}), {by_the_terms}.").format(
                terms=order.terms, by_the_terms=BY_THE_TERMS[rule]
            )
        )
