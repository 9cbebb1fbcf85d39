"""How long one invoice takes to print, with its electronic form inside, and how long that form takes alone.

Run from the top: `python -m tests.benchmarks.invoices`. Bar: 150 ms for one page, warm. It works in a
throw-away database.
Times are the processor's: the machine is shared.
"""

import os
import statistics
from datetime import timedelta

import django
from django.test.runner import DiscoverRunner

from tests.benchmarks.gate_one import show, worked

TIMES = 30
LINES = (1, 8, 60)


def an_invoice(lines, day):
    """An issued invoice of one plate and so many lines in all."""
    from bookings.invoices.services import issuing as invoices
    from tests import builders

    extras = {builders.an_extra(f"Extra {number}", amount=1000 + number): 1 for number in range(1, lines)}
    order = builders.a_paid_order(builders.a_day(on=day), extras=extras)
    return invoices.issue(order_id=order.pk, now=builders.NOW)


def milliseconds(work):
    """The median and the longest of warm runs."""
    work()
    took = [worked(work)[1] for _ in range(TIMES)]
    return f"median {statistics.median(took):.0f} ms, longest {max(took):.0f} ms"


def measure():
    from bookings.invoices.paper import invoice_pdf
    from bookings.invoices.selectors.einvoices import einvoice
    from tests.builders import SATURDAY

    for days, lines in enumerate(LINES):
        invoice = an_invoice(lines, SATURDAY + timedelta(days=days))
        size = len(invoice_pdf(invoice)) // 1024
        show(f"{lines:2d} lines: PDF {milliseconds(lambda i=invoice: invoice_pdf(i))}, {size} kB;"
             f" XML alone {milliseconds(lambda i=invoice: einvoice(i))}")  # fmt: skip


def main():
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    django.setup()
    runner = DiscoverRunner(verbosity=0, interactive=False)
    made = runner.setup_databases()
    try:
        measure()
    finally:
        runner.teardown_databases(made)


if __name__ == "__main__":
    main()
