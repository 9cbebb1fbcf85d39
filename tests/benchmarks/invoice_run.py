"""Two hundred invoices issued together and printed into one file: `python -m tests.benchmarks.invoice_run [ORDERS]`.

In a database of its own, worked off in the drain's own pieces, with what the page of the run asks between two pieces.
Both clocks are told: the machine is shared.
"""

import sys
import time
from collections.abc import Callable
from datetime import time as time_of_day
from datetime import timedelta

from tests.benchmarks.studio import scratch_studio

ORDERS = 200
DAYS = 8
AT_ONCE = 10


def main() -> None:
    with scratch_studio():
        sys.stdout.write(report(int(sys.argv[1]) if len(sys.argv) > 1 else ORDERS) + "\n")


def report(count: int) -> str:
    from bookings.invoices import files as invoice_files
    from bookings.invoices.models import Invoice
    from bookings.invoices.paper import invoice_pdf
    from bookings.invoices.selectors.runs import progress, ready_to_invoice
    from bookings.invoices.services import runs as invoice_runs
    from tests import builders

    after = placed(count) + timedelta(days=1)
    ids = [order.pk for order in ready_to_invoice(now=after)]
    run = invoice_runs.start(order_ids=ids, by_mail=False, asked_by=builders.an_operator(), now=after)
    pieces = []
    while progress(run).waiting:
        pieces.append(timed(lambda: invoice_runs.advance(now=after))[1:])
    looked = timed(lambda: progress(run))[1:]
    invoice_pdf(Invoice.objects.latest("pk"))  # the press is set up once in the life of a process
    papers = Invoice.objects.select_related("series", "order").order_by("number")
    size, *printed = timed(lambda: sum(len(piece) for piece in invoice_files.zipped(papers)))
    assert Invoice.objects.count() == len(ids) == count
    return (
        f"{count} invoices issued in {len(pieces)} pieces: {told(map(sum, zip(*pieces, strict=True)), count)},\n"
        f"longest piece {max(wall for wall, _ in pieces):.2f} s; the page's question {1000 * looked[0]:.0f} ms\n"
        f"printed into one file of {size / 1e6:.1f} MB: {told(printed, count)}"
    )


def timed(act: Callable[[], object]) -> tuple:
    """What an act gives back, its seconds on the wall and those of the processor."""
    wall, processor = time.perf_counter(), time.process_time()
    given = act()
    return given, time.perf_counter() - wall, time.process_time() - processor


def told(seconds, count: int) -> str:
    wall, processor = seconds
    return f"{wall:.1f} s on the wall, {processor:.1f} s of the processor ({1000 * processor / count:.0f} ms each)"


def placed(count: int):
    """So many paid orders, spread over days of a bench with many hands; the end of the last day."""
    from tests import builders

    bench = builders.a_bench(operators=20, tank_places=20, wash_places=60, sitters_at_once=20)
    days = [builders.a_day(on=builders.SATURDAY + timedelta(days=each), bench=bench) for each in range(DAYS)]
    for number in range(count):
        at = time_of_day(10 + number // DAYS // AT_ONCE)
        builders.a_paid_order(days[number % DAYS], at=at, extras={builders.an_extra(): 1})
    return days[-1].bench_day.closes_at


if __name__ == "__main__":
    main()
