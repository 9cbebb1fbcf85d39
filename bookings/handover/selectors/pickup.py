"""Which orders wait to be collected. Nothing here writes."""

from django.db.models import Exists, OuterRef

from bookings.orders.models import Order
from bookings.outbox.models import NoticeKind
from plates.bench.models import Plate, PlateSlot, Stage


def ready_untold() -> list[Order]:
    """Placed orders whose every promised plate is ready, some still here, and whose client was not told."""
    finished = Plate.objects.filter(slot=OuterRef("pk"), stage__in=[Stage.READY, Stage.HANDED_OVER])
    unfinished = PlateSlot.objects.filter(~Exists(finished), job=OuterRef("sitting__bench_job"))
    waiting = Plate.objects.filter(slot__job=OuterRef("sitting__bench_job"), stage=Stage.READY)
    orders = Order.objects.filter(
        ~Exists(unfinished), Exists(waiting), placed_at__isnull=False, cancelled_at=None
    )
    return list(orders.exclude(notices__kind=NoticeKind.READY))
