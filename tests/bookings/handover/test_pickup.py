"""From the rack to the right hands."""

from datetime import UTC, datetime, timedelta

import pytest

from bookings.changes.services import additions, sittings
from bookings.errors import BalanceOwed
from bookings.handover.services import pickup
from bookings.letters.mail import message
from bookings.letters.services import sending as notices
from bookings.outbox.models import Notice
from plates.bench.models import Plate, PlateSlot
from plates.errors import StageOutOfOrder
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

LATER = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)


@pytest.fixture
def order():
    """Two plates for 210.00, of which half is paid."""
    return builders.a_paid_order(builders.a_day(), sizes=("quarter", "half"))


def move_on(plate, stage="handed_over"):
    return pickup.move_on(plate_id=plate.pk, stage=stage, operator=None, now=LATER)


def told(order):
    return Notice.objects.filter(order=order, kind="ready").count()


def test_a_plate_is_not_handed_over_while_money_is_owed(order):
    plate, _ = builders.made_plates(order)

    with pytest.raises(BalanceOwed) as refusal:
        move_on(plate)

    assert str(refusal.value) == (
        f"€105.00 is still owed on order {order.reference}. Record the payment first, then hand the plate over."
    )
    assert Plate.objects.get(pk=plate.pk).stage == "ready"


def test_one_cent_owed_is_owed(order):
    plate, _ = builders.made_plates(order)
    builders.pay(order, 10499)

    with pytest.raises(BalanceOwed, match=r"^€0\.01 is still owed"):
        move_on(plate)


def test_a_plate_that_is_paid_for_goes_into_its_owners_hands(order):
    plate, _ = builders.made_plates(order)
    builders.pay(order, 10500)

    move_on(plate)

    assert Plate.objects.get(pk=plate.pk).stage == "handed_over"


def test_other_stages_do_not_ask_for_money(order):
    plate, _ = builders.made_plates(order, stage="drying")

    move_on(plate, "varnished")

    assert Plate.objects.get(pk=plate.pk).stage == "varnished"


def test_a_plate_that_is_not_ready_is_not_handed_over_though_it_is_paid_for(order):
    plate, _ = builders.made_plates(order, stage="drying")
    builders.pay(order, 10500)

    with pytest.raises(
        StageOutOfOrder, match=r"^Plate 1 is drying; the next stage is varnished, not handed over\.$"
    ):
        move_on(plate)


def test_the_client_is_told_once_when_every_plate_is_ready(order):
    builders.made_plates(order)

    pickup.announce_ready(now=LATER)
    pickup.announce_ready(now=LATER)

    assert told(order) == 1
    assert Notice.objects.get(order=order, kind="ready").due_at == LATER


def test_the_client_is_not_told_while_one_plate_is_still_on_its_way(order):
    first, second = PlateSlot.objects.filter(job=order.sitting.bench_job_id)
    builders.made_plate(first, "ready", LATER)
    builders.made_plate(second, "varnished", LATER)

    assert pickup.announce_ready(now=LATER) == []


def test_a_plate_that_was_spoilt_and_made_again_is_announced_when_the_second_is_ready(order):
    plates = builders.made_plates(order, stage="developed")
    ledger.spoil(plate_id=plates[0].pk, reason="streaked", note="", operator=None, now=LATER)
    for plate in plates[1:]:
        for stage in ("fixed", "washing", "drying", "varnished", "ready"):
            move_on(plate, stage)
    assert pickup.announce_ready(now=LATER) == []

    builders.made_plate(plates[0].slot, "ready", LATER)

    assert [notice.order for notice in pickup.announce_ready(now=LATER)] == [order]


def test_nobody_is_told_of_plates_that_were_collected_as_they_became_ready(order):
    builders.pay(order, 10500)
    for plate in builders.made_plates(order):
        move_on(plate)

    assert pickup.announce_ready(now=LATER) == []


def test_an_order_that_was_never_begun_is_not_ready(order):
    assert pickup.announce_ready(now=LATER) == []


def test_a_cancelled_order_is_not_announced():
    order = builders.a_paid_order(builders.a_day())
    sittings.cancel(order_id=order.pk, now=NOW)

    assert pickup.announce_ready(now=LATER) == []


def ready_and_told(order, *, at):
    builders.made_plates(order)
    pickup.announce_ready(now=at)
    Notice.objects.filter(kind="ready").update(sent_at=at)


def reminders():
    return Notice.objects.filter(kind="uncollected")


def test_a_client_is_reminded_once_when_the_agreed_days_are_over(order):
    ready_and_told(order, at=LATER)

    early = pickup.remind_uncollected(now=LATER + timedelta(days=90) - timedelta(seconds=1))
    due = pickup.remind_uncollected(now=LATER + timedelta(days=90))
    again = pickup.remind_uncollected(now=LATER + timedelta(days=400))

    assert (early, [notice.order for notice in due], again) == ([], [order], [])
    assert reminders().count() == 1


def test_the_days_are_those_of_the_terms_agreed_to():
    builders.some_terms(kept_days=14)
    order = builders.a_paid_order(builders.a_day())
    ready_and_told(order, at=LATER)

    assert len(pickup.remind_uncollected(now=LATER + timedelta(days=14))) == 1


def test_nobody_is_reminded_who_was_never_told(order):
    builders.made_plates(order)

    assert pickup.remind_uncollected(now=LATER + timedelta(days=400)) == []


def test_nobody_is_reminded_whose_plates_are_to_be_posted(order):
    post = builders.an_extra("By post", "post", 1250)
    additions.send_by_post(order_id=order.pk, post=post, address="Quay 3", country="PT", now=NOW)
    ready_and_told(order, at=LATER)

    assert pickup.remind_uncollected(now=LATER + timedelta(days=400)) == []


def test_a_reminder_of_plates_that_were_collected_meanwhile_is_withdrawn(order):
    ready_and_told(order, at=LATER)
    builders.pay(order, 10500)
    pickup.remind_uncollected(now=LATER + timedelta(days=90))
    for plate in Plate.objects.all():
        move_on(plate)

    notices.send_due(now=LATER + timedelta(days=91))

    assert reminders().get().withdrawn_at is not None


def test_the_reminder_names_plates_money_and_code(order):
    ready_and_told(order, at=LATER)
    [notice] = pickup.remind_uncollected(now=LATER + timedelta(days=90))

    body = " ".join(message(notice).body.split())

    assert "your plates were kept for 90 days after they were ready" in body
    assert "- Plate 1, quarter - Plate 2, half Still to pay when you collect them: €105.00" in body
    assert f"Your code, for you or whom you send: {order.pickup_code[:4]}-{order.pickup_code[4:]}" in body


def test_the_letter_that_plates_are_ready_tells_the_code(order):
    ready_and_told(order, at=LATER)

    assert (
        f"{order.pickup_code[:4]}-{order.pickup_code[4:]}" in message(Notice.objects.get(kind="ready")).body
    )
