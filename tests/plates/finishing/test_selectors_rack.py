"""What lies on the rack, what is still to come onto it, and when it is ready."""

from datetime import UTC, date, datetime, timedelta

import pytest

from plates.bench.models import BenchJob, Plate, PlateSlot, Stage
from plates.finishing.forecast import FinishingError
from plates.finishing.models import Finishing
from plates.finishing.selectors import outlook
from plates.finishing.selectors import rack as finishing
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

HOUR = timedelta(hours=1)
# Saturday 28 November 2026: the day of the sitting opens at ten and its racks are empty by a quarter past seven.
SITTING = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


@pytest.fixture
def order():
    builders.finishing()
    return builders.a_paid_order(builders.a_day(), sizes=["quarter"] * 3)


def rack(now):
    return finishing.rack(finishing=finishing.the_finishing(), now=now)


def numbers(rows):
    return [row.plate.number for row in rows]


def looked_ahead(plates, *, now=SITTING, closed=()):
    return outlook.outlook(
        finishing=finishing.the_finishing(), zone=UTC, closed=closed, plates=plates, now=now
    )


def test_plates_on_the_rack_are_told_apart_by_how_long_they_have_lain(order):
    first, second, third = PlateSlot.objects.filter(job=order.sitting.bench_job_id)
    builders.made_plate(first, Stage.DRYING, NOW - HOUR)
    builders.made_plate(second, Stage.DRYING, NOW - HOUR / 2)
    builders.made_plate(third, Stage.VARNISHED, NOW - 23 * HOUR)

    found = rack(NOW)

    assert (numbers(found.dry), numbers(found.drying)) == ([1], [2])
    assert (numbers(found.cured), numbers(found.curing)) == ([], [3])
    assert (found.drying[0].minutes, found.drying[0].ready_from) == (30, NOW + HOUR / 2)
    assert numbers(rack(NOW + HOUR).cured) == [3]


def test_an_empty_rack_says_so(order):
    assert rack(NOW).empty


def test_plates_still_to_be_poured_come_onto_the_rack_by_their_plan(order):
    job = BenchJob.objects.select_related("day").get()

    found = finishing.awaited(now=NOW)

    assert [plate.racked for plate in found] == finishing.racked_at(job)
    assert {plate.varnished for plate in found} == {None}


def test_a_plate_that_should_have_been_poured_long_ago_comes_no_sooner_than_if_poured_now(order):
    late = SITTING + 4 * HOUR
    job = BenchJob.objects.select_related("day").get()
    plan = job.plan["plates"][0]

    found = finishing.awaited(now=late)

    assert found[0].racked == late + timedelta(minutes=plan["lift"] - plan["pour"])


def test_each_plate_is_awaited_as_far_as_it_has_come(order):
    first, second, third = PlateSlot.objects.filter(job=order.sitting.bench_job_id)
    builders.made_plate(first, Stage.DRYING, SITTING)
    builders.made_plate(second, Stage.VARNISHED, SITTING)
    builders.made_plate(third, Stage.READY, SITTING)

    found = finishing.awaited(now=SITTING + HOUR)

    assert [(plate.slot_id, plate.racked, plate.varnished) for plate in found] == [
        (first.pk, SITTING, None),
        (second.pk, SITTING, SITTING),
    ]


def test_a_spoilt_plate_is_awaited_again_while_its_day_lasts_and_not_after(order):
    plate = builders.made_plate(
        PlateSlot.objects.filter(job=order.sitting.bench_job_id)[0], Stage.EXPOSED, SITTING
    )
    ledger.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=SITTING)

    day, after = (finishing.awaited(now=SITTING + hours * HOUR) for hours in (1, 10))

    assert plate.slot_id in [each.slot_id for each in day]
    assert after == []


def test_a_lapsed_hold_is_not_awaited(order):
    builders.a_held_order(builders.a_day(on=date(2026, 12, 5)))

    now, later = (finishing.awaited(now=NOW + HOUR * hours) for hours in (0, 1))

    assert (len(now), len(later)) == (4, 3)


def test_all_awaited_plates_are_one_query(order, django_assert_num_queries):
    with django_assert_num_queries(1):
        finishing.awaited(now=NOW)


def test_the_slots_that_are_not_ready_are_known_by_job(order):
    job_id = order.sitting.bench_job_id
    first, second, third = PlateSlot.objects.filter(job=job_id)
    builders.made_plate(first, Stage.READY, NOW)
    PlateSlot.objects.filter(pk=second.pk).update(given_up_at=NOW)

    assert finishing.unfinished_slots(job_ids=[job_id]) == {job_id: {third.pk}}


def test_a_plate_of_saturday_is_ready_on_tuesday_when_nobody_works_on_sunday(order):
    """On the rack on Saturday about noon, varnished on Monday until eleven, cured on Tuesday at eleven."""
    forecast = looked_ahead(finishing.awaited(now=SITTING)).of([PlateSlot.objects.first().pk])

    assert forecast.sure(0.95) == date(2026, 12, 1)


def test_closed_days_make_it_later(order):
    closed = {date(2026, 11, 30): "Fair"}

    forecast = looked_ahead(finishing.awaited(now=SITTING), closed=closed).of([PlateSlot.objects.first().pk])

    assert forecast.sure(0.95) == date(2026, 12, 2)


def test_a_plate_asked_for_goes_behind_those_that_fill_the_session(order):
    builders.usual_finishing(session_plates=3)
    found = looked_ahead(finishing.awaited(now=SITTING))

    asked = outlook.behind(outlook=found, racked=[SITTING + 3 * HOUR])

    assert asked.sure(0.95) == date(2026, 12, 2)


def test_numbers_out_of_order_are_refused_in_set_up():
    with pytest.raises(FinishingError, match=r"^The shortest time cannot be longer"):
        Finishing(dry_least=90, dry_usual=60).work()


def test_the_usual_values_hold_until_the_studio_has_its_own(db):
    Finishing.objects.all().delete()

    assert finishing.the_finishing().certainty == 95
    assert Plate.objects.count() == 0
