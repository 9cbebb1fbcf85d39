"""What the ledger of plates says."""

from datetime import UTC, datetime, timedelta

import pytest

from plates.bench import selectors as ledger
from plates.bench.models import Plate, PlateSlot, Stage
from plates.ledger.services import events as services
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
TEN_MINUTES = timedelta(minutes=10)


@pytest.fixture
def order():
    return builders.a_paid_order(builders.a_day(), sizes=("quarter", "half"))


def slots(order):
    return list(PlateSlot.objects.filter(job=order.sitting.bench_job_id))


def poured(slot, *, now=TEN, operator=None):
    return services.pour(slot_id=slot.pk, operator=operator, now=now)


def spoilt(plate, *, operator=None, note=""):
    return services.spoil(plate_id=plate.pk, reason="fogged", note=note, operator=operator, now=TEN)


def in_wash(slot, since):
    plate = poured(slot)
    for stage in ("sensitised", "exposed", "developed", "fixed", "washing"):
        services.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=since)
    return plate


def test_the_slots_of_jobs_come_in_order_with_the_plates_poured_for_them(order, django_assert_num_queries):
    first, second = slots(order)
    lost = spoilt(poured(first))
    retake = poured(first)
    job_id = order.sitting.bench_job_id

    with django_assert_num_queries(2):
        found = ledger.slots_of(job_ids=[job_id, 0])[job_id]
        plates = [list(slot.plates.all()) for slot in found]

    assert found == [first, second]
    assert plates == [[lost, retake], []]


def test_the_live_plate_of_a_slot_is_the_one_that_is_not_spoilt(order):
    first = slots(order)[0]
    spoilt(poured(first))
    retake = poured(first)
    job_id = order.sitting.bench_job_id

    found = ledger.slots_of(job_ids=[job_id])[job_id]

    assert [ledger.live_plate(slot) for slot in found] == [retake, None]


def test_the_wash_shows_the_plate_to_be_lifted_first_on_top(order):
    first, second = slots(order)
    later = in_wash(second, TEN + TEN_MINUTES)
    sooner = in_wash(first, TEN)

    shown = ledger.in_the_wash(bench=order.sitting.day.bench_day.bench)

    # The default wash, 60 to 120 minutes: about an hour is common practice, no source.
    hour, two = timedelta(hours=1), timedelta(hours=2)
    assert [(each.plate, each.since, each.lift_from, each.lift_by) for each in shown] == [
        (sooner, TEN, TEN + hour, TEN + two),
        (later, TEN + TEN_MINUTES, TEN + TEN_MINUTES + hour, TEN + TEN_MINUTES + two),
    ]


def test_the_wash_of_another_bench_is_not_shown(order):
    in_wash(slots(order)[0], TEN)

    assert ledger.in_the_wash(bench=builders.a_bench(name="Tent")) == []


def test_the_history_of_a_plate_says_what_when_by_whom_and_why(order):
    operator = builders.an_operator()
    plate = poured(slots(order)[0], operator=operator)
    spoilt(plate, note="light leak")

    assert ledger.history(plate=plate) == [
        ("Poured", TEN, "operator", ""),
        ("Spoilt", TEN, "", "light leak"),
    ]


def test_plates_are_numbered_as_they_are_poured_spoilt_ones_too(order):
    first, second = slots(order)
    poured(second)
    spoilt(poured(first))
    poured(first)

    listed = Plate.objects.order_by("number")

    assert [(plate.number, plate.slot.position) for plate in listed] == [(1, 2), (2, 1), (3, 1)]
    assert Plate.objects.exclude(stage=Stage.SPOILT).count() == 2
