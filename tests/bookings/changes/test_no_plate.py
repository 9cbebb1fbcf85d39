"""A sitting that gave no plate fit to be handed over: paid back, or made again without charge, as the terms say."""

from datetime import UTC, date, datetime, timedelta

import pytest

from bookings.changes.selectors import WithoutPlate, without_plate
from bookings.changes.services import no_plate, sittings
from bookings.errors import NotByTheTerms
from bookings.orders.models import CancelCause, Order
from bookings.orders.selectors.account import OrderStatus, account, order_status
from bookings.payments.models import Payment
from bookings.pricing.models import NoPlate, Terms
from plates.bench.models import BenchJob, PlateSlot, Stage
from plates.errors import SlotTaken, StageOutOfOrder, StillUnderWay
from plates.finishing.selectors.wash import rack_plates
from plates.ledger.services import events as ledger
from plates.ledger.services import undo
from plates.schedule.selectors.late import day_work
from plates.tent.selectors.plates import tent_plates
from tests import builders
from tests.builders import NOW
from tests.race.layouts import problems_of

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
HALF_PAST = TEN + timedelta(minutes=30)
NEXT_DAY = TEN + timedelta(days=1)


@pytest.fixture
def day():
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, sitters_at_once=1))


@pytest.fixture
def sunday(day):
    return builders.a_day(on=date(2026, 11, 29), bench=day.bench_day.bench)


@pytest.fixture
def order(day):
    """An order whose one plate was poured and given up."""
    order = builders.a_paid_order(day)
    spoilt(poured(order))
    return stored(order)


def stored(order):
    return Order.objects.select_related("sitting__bench_job", "terms").get(pk=order.pk)


def poured(order, *, now=TEN):
    return builders.made_plate(PlateSlot.objects.get(job=order.sitting.bench_job_id), Stage.POURED, now)


def spoilt(plate, *, now=HALF_PAST):
    return ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=now)


def rebooked(order, day, *, starts_at=NEXT_DAY, now=HALF_PAST):
    return no_plate.rebook(order_id=order.pk, day_id=day.pk, starts_at=starts_at, now=now)


def refunded(order):
    return sittings.cancel(order_id=order.pk, cause=CancelCause.NO_PLATE, now=HALF_PAST)


@pytest.mark.parametrize(
    ("rule", "ways"),
    [
        (NoPlate.REFUND, WithoutPlate(refund=True, rebook=False)),
        (NoPlate.REBOOK, WithoutPlate(refund=False, rebook=True)),
        (NoPlate.CHOICE, WithoutPlate(refund=True, rebook=True)),
    ],
    ids=["refund", "rebook", "choice"],
)
def test_the_terms_say_which_ways_there_are(day, rule, ways):
    Terms.objects.update(no_plate=rule)
    order = builders.a_paid_order(day)
    assert without_plate(stored(order)) is None
    plate = poured(order)
    assert without_plate(stored(order)) is None

    spoilt(plate)

    assert without_plate(stored(order)) == ways


def test_a_sitting_without_a_plate_is_paid_back_whole(order):
    refunded(order)

    found = stored(order)
    assert (found.kept, found.cancel_cause, account(found).overpaid) == (0, "no_plate", 4250)
    assert found.notices.filter(kind="cancelled").exists()
    assert found.sitting.bench_job.released_at is None  # it was begun, and stays what it was


@pytest.mark.parametrize("act", [refunded, rebooked], ids=["paid back", "made again"])
def test_a_sitting_with_a_plate_under_way_is_not_ended(day, sunday, act):
    order = builders.a_paid_order(day)
    plate = poured(order)
    given = (order,) if act is refunded else (order, sunday)

    with pytest.raises(StillUnderWay, match=rf"^Plate {plate.number} of this sitting is poured\. Only when"):
        act(*given)

    assert stored(order).cancelled_at is None


def test_a_sitting_that_was_not_begun_is_not_ended(day):
    order = builders.a_paid_order(day)

    with pytest.raises(StillUnderWay, match=r"^No plate of this sitting was poured yet\."):
        refunded(order)


def test_where_the_terms_promise_another_sitting_nothing_is_paid_back(day, sunday):
    Terms.objects.update(no_plate=NoPlate.REBOOK)
    order = builders.a_paid_order(day)
    spoilt(poured(order))

    with pytest.raises(NotByTheTerms, match=r"\(version 2026-1\), there is another sitting without charge"):
        refunded(order)

    assert stored(order).cancelled_at is None
    assert rebooked(order, sunday).day == sunday


def test_where_the_terms_pay_back_there_is_no_other_sitting(day, sunday):
    Terms.objects.update(no_plate=NoPlate.REFUND)
    order = builders.a_paid_order(day)
    spoilt(poured(order))

    with pytest.raises(NotByTheTerms, match="everything is paid back when no plate could be made"):
        rebooked(order, sunday)

    assert stored(order).sitting.day == day


def test_another_sitting_promises_the_same_plates_without_charge(order, sunday):
    before = order.sitting.bench_job

    sitting = rebooked(order, sunday)

    found = stored(order)
    assert (sitting.day, found.sitting.bench_job.starts_at) == (sunday, NEXT_DAY)
    assert order_status(found, now=HALF_PAST) == OrderStatus.PROMISED
    assert [line.slot.job for line in found.lines.all()] == [found.sitting.bench_job]
    assert [slot.size.name for slot in found.sitting.bench_job.slots.all()] == ["quarter"]
    assert (account(found).gross, account(found).paid, Payment.objects.count()) == (8500, 4250, 1)
    assert found.notices.filter(kind="confirmed", occasion="1").exists()
    assert found.sitting.bench_job != before


def test_the_first_try_stays_in_the_record_with_its_spoilt_plate(order, sunday):
    before = order.sitting.bench_job

    rebooked(order, sunday)

    before.refresh_from_db()
    assert (before.begun_at, before.released_at) == (TEN, None)
    assert [plate.stage for slot in before.slots.all() for plate in slot.plates.all()] == ["spoilt"]


def test_both_days_still_hold_for_the_independent_verifier(order, day, sunday):
    rebooked(order, sunday)

    assert (problems_of(day.pk, now=HALF_PAST), problems_of(sunday.pk, now=HALF_PAST)) == ((), ())


def test_the_room_that_was_kept_for_making_the_plate_again_goes_back(order, sunday):
    assert BenchJob.objects.filter(retake_of__isnull=False).count() == 1

    rebooked(order, sunday)

    assert not BenchJob.objects.filter(retake_of__isnull=False).exists()


def test_nothing_more_is_asked_of_the_bench_for_a_sitting_that_has_ended(order, day):
    slot = PlateSlot.objects.get()
    refunded(order)
    bench_day = type(day.bench_day).objects.select_related("bench__largest_size").get(pk=day.bench_day_id)

    assert tent_plates(day=bench_day, now=HALF_PAST) == []
    assert rack_plates(day=bench_day, now=HALF_PAST) == []
    assert [each.job for each in day_work(day=bench_day, now=HALF_PAST)] == [order.sitting.bench_job]
    with pytest.raises(StageOutOfOrder, match=r"^This sitting ended without a plate"):
        ledger.pour(slot_id=slot.pk, operator=None, now=HALF_PAST)


def test_the_last_plate_is_not_taken_back_into_a_sitting_that_has_ended(order):
    plate = PlateSlot.objects.get().plates.get()
    refunded(order)

    with pytest.raises(SlotTaken, match=r"^This sitting has ended without a plate, so its last plate stays"):
        undo.undo_press(plate_id=plate.pk, operator=None, now=HALF_PAST)


def test_the_second_sitting_can_be_moved_and_cancelled_like_any_other(order, sunday):
    rebooked(order, sunday)

    sittings.cancel(order_id=order.pk, cause=CancelCause.STUDIO, now=HALF_PAST)

    assert (stored(order).kept, account(stored(order)).overpaid) == (0, 4250)
    assert stored(order).started_at == NOW
