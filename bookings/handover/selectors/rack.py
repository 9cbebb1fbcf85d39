"""The rack with names: for whom each plate is, and by when it was promised."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bookings.orders.models import Order
from plates.bench.models import Stage
from plates.finishing.models import Finishing
from plates.finishing.selectors import rack as finishing
from plates.finishing.selectors.rack import OnRack


@dataclass(frozen=True, slots=True)
class RackRow:
    """A plate on the rack and the order it belongs to; no order where nobody has put a name to it."""

    lying: OnRack
    order: Order | None

    @property
    def promised_on(self) -> date | None:
        return self.order.promised_on if self.order else None


@dataclass(frozen=True, slots=True)
class Bench:
    """What can be done on a quiet morning, what is promised first on top, and what has to lie on."""

    to_varnish: list[RackRow]
    drying: list[RackRow]
    to_pack: list[RackRow]
    curing: list[RackRow]
    set_up: Finishing

    def plate_ids(self) -> list[int]:
        """Every plate that can be brought on, whether it has lain long enough or not."""
        every = (*self.to_varnish, *self.drying, *self.to_pack, *self.curing)
        return [row.lying.plate.pk for row in every]

    def all_of(self, what: str) -> set[int]:
        """The plates that can be brought on to that stage now; none for any other word."""
        rows = {Stage.VARNISHED.value: self.to_varnish, Stage.READY.value: self.to_pack}.get(what, [])
        return {row.lying.plate.pk for row in rows}

    @property
    def empty(self) -> bool:
        return not (self.to_varnish or self.drying or self.to_pack or self.curing)


def bench(*, now: datetime) -> Bench:
    """Every plate between wash and packing, in three queries."""
    set_up = finishing.the_finishing()
    found = finishing.rack(finishing=set_up, now=now)
    lying = [*found.dry, *found.drying, *found.cured, *found.curing]
    jobs = {each.plate.slot.job_id for each in lying}
    orders = Order.objects.filter(sitting__bench_job__in=jobs).select_related("client", "sitting")
    by_job = {order.sitting.bench_job_id: order for order in orders}

    def rows(part: Sequence[OnRack]) -> list[RackRow]:
        named = [RackRow(each, by_job.get(each.plate.slot.job_id)) for each in part]
        return sorted(named, key=lambda row: (row.promised_on or date.max, row.lying.since))

    return Bench(rows(found.dry), rows(found.drying), rows(found.cured), rows(found.curing), set_up)
