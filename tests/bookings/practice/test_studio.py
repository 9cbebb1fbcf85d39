"""The practice studio can be loaded once, is complete, and never lands in a real studio."""

from datetime import UTC, datetime
from decimal import Decimal

import pytest
import time_machine
from django.core.management import call_command

from bookings.day.selectors.queue import day_queue
from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay, Venue
from bookings.money import VoucherState
from bookings.orders.models import Order
from bookings.practice import studio as demo
from bookings.studio.models import Studio
from bookings.vouchers.selectors import listed
from plates import capacity
from plates.bench.models import PlateSize
from plates.schedule.selectors.openings import promised_jobs
from plates.store.models import Batch
from plates.store.selectors.batches import on_the_shelf
from plates.store.selectors.baths import state
from plates.store.selectors.costs import costs
from plates.store.selectors.shopping import shopping
from plates.store.selectors.supplies import figures, in_stock
from tests.trade_facts import PLATE_AREAS_CM2, PLATE_SIDES_INCHES

NOW = datetime(2026, 11, 25, 22, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def loaded(rows_for_all):
    assert demo.load(now=NOW)


@pytest.fixture
def practice(loaded, db):
    return SittingDay.objects.first()


def test_loading_twice_changes_nothing(practice):
    orders = Order.objects.count()

    assert demo.load(now=NOW) is False
    assert Order.objects.count() == orders


def test_its_first_day_has_a_queue_that_the_bench_can_make(practice):
    day = practice.bench_day
    booked = [job.as_booked() for job in promised_jobs(day=day, now=NOW)]

    assert len(day_queue(day=practice, now=NOW)) == len(demo.SITTERS)
    assert capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked) == ()


def test_it_uses_only_reserved_addresses(practice):
    addresses = [order.client.email for order in Order.objects.all()] + [Studio.objects.get().email]

    # RFC 2606 reserves example.org and every name below it.
    assert all(address.endswith(("@example.org", ".example.org")) for address in addresses)


def test_its_store_room_has_ripe_and_ripening_batches_a_bath_and_something_to_buy(practice):
    on, room = NOW.date(), figures()
    standings = {kept.batch.label: kept.condition for kept in on_the_shelf(on=on)}
    bath = state(batch=Batch.objects.get(kind="bath"), room=room, now=NOW)

    assert (standings["C 14"], standings["C 15"]) == ("ready", "ripening")
    assert 70 < bath.book.bath.strength.grams_per_litre < 100
    assert [line.supply.name for line in shopping(room=room, now=NOW).to_buy]
    assert all(each.level.missing == 0 for each in in_stock(on=on, ether_months=room.ether_months))
    assert all(cost.a_plate > 0 for cost in costs(room=room))


@pytest.mark.parametrize(("name", "area"), sorted(PLATE_AREAS_CM2.items()))
def test_the_usual_sizes_have_the_areas_of_the_handbook_table(practice, name, area):
    assert PlateSize.objects.get(name=name).area_cm2 == Decimal(area)


@pytest.mark.parametrize(("name", "sides"), sorted(PLATE_SIDES_INCHES.items()))
def test_the_usual_sizes_have_the_sides_of_the_handbook_table(practice, name, sides):
    size = PlateSize.objects.get(name=name)

    # An inch is 25.4 mm exactly (international yard and pound agreement of 1959, from memory).
    assert [size.width_mm, size.height_mm] == [Decimal(side) * Decimal("25.4") for side in sides]


def test_one_drain_sends_what_is_due(practice, mailoutbox, capsys):
    with time_machine.travel(NOW, tick=False):
        call_command("drain")

    assert f"{len(mailoutbox)} letters sent" in capsys.readouterr().out
    a_voucher = 1
    assert len(mailoutbox) == sum(sitter.pays for sitter in demo.SITTERS) + a_voucher


def test_it_has_a_voucher_that_is_paid_for_and_used_in_part(practice):
    [row] = listed(words="", on=NOW.date())

    assert (row.state, row.facts.paid, row.facts.left) == (VoucherState.USABLE, 12_000, 8_000)
    assert row.voucher.buyer_email.endswith("@example.org")


def test_the_fair_works_by_daylight(practice):
    [fair] = SittingDay.objects.filter(by_daylight=True)

    assert (fair.venue, fair.sun_height) == (Venue.objects.order_by("pk").last(), 10)
    assert calendar.light_in_words(fair).startswith("from ")
