"""What the races have to notice: the site with one of its locks taken away. Nothing of this is in the site itself."""

from collections.abc import Callable
from typing import Any

from django.db import connections


def without_the_day_lock() -> None:
    """The day is read but not locked before its places are counted."""
    from plates.bench.models import BenchDay
    from plates.schedule.services import jobs as bench

    bench.lock_day = lambda day_id: BenchDay.objects.select_related("bench__largest_size").get(pk=day_id)


def without_the_voucher_lock() -> None:
    """The voucher is read but not locked before what is left on it is counted."""
    from bookings.vouchers.models import Voucher
    from bookings.vouchers.services import redeeming

    redeeming.locked = lambda voucher_id: Voucher.objects.get(pk=voucher_id)


def link_read_before_its_lock() -> None:
    """A mailed link is looked at, and then used without anybody waiting for anybody."""
    from time import sleep

    from bookings.access import services as step_up

    def used(*, text: str, now: Any) -> Any:
        asked = step_up.resolve(text=text, now=now)
        sleep(0.2)
        asked.used_at = now
        asked.save(update_fields=["used_at"])
        return asked

    step_up.use = used


def without_the_store_lock() -> None:
    """What bottles leave is read, and the row of the store room not locked before."""
    from plates.budgets.limits import limits_of
    from plates.schedule.services import placing

    placing.lock_stock = limits_of


def deferred() -> None:
    """SQLite takes its write lock only when a transaction first writes, which is its own default."""
    connections["default"].settings_dict["OPTIONS"]["transaction_mode"] = "DEFERRED"


def counter_read_before() -> None:
    """The counter of invoices is read before the transaction that gives its next number out."""
    from bookings.invoices.models import InvoiceSeries
    from bookings.invoices.services import freezing as issuing
    from bookings.invoices.services import issuing as invoices

    issue, counted = invoices.issue, issuing._next_number

    def reading_before(*, order_id: int, now: Any) -> Any:
        seen = InvoiceSeries.objects.values_list("last", flat=True).first() or 0

        def given(prefix: str, year: int) -> Any:
            series = counted(prefix, year)
            series.last = seen + 1
            series.save()
            return series

        issuing._next_number = given
        return issue(order_id=order_id, now=now)

    invoices.issue = reading_before


MUTANTS: dict[str, Callable[[], None]] = {
    "without_the_day_lock": without_the_day_lock,
    "without_the_voucher_lock": without_the_voucher_lock,
    "link_read_before_its_lock": link_read_before_its_lock,
    "without_the_store_lock": without_the_store_lock,
    "deferred": deferred,
    "counter_read_before": counter_read_before,
}
