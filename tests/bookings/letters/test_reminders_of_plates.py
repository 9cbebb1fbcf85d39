"""Letters that time makes due once the plates are made: in the wash, and answers that are looked at again."""

from datetime import UTC, datetime, timedelta

import pytest

from bookings.clients import services as own_data
from bookings.handover.services import pickup
from bookings.letters.selectors.reminders import months_before
from bookings.orders.models import Consent, ConsentPurpose
from bookings.studio.models import Studio
from plates.bench.models import PlateSlot, SpoiltReason, Stage
from plates.ledger.services import events as ledger
from tests import builders
from tests.bookings.letters.rounds import HOUR, MINUTE, STARTS, a_promised_order, a_round, sent_kinds
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def day():
    return builders.a_day()


@pytest.fixture
def promised(day):
    return a_promised_order(day)


class TestInTheWash:
    def test_it_is_told_some_minutes_after_the_last_plate_went_in(self, day):
        order = builders.a_paid_order(day, sizes=["quarter", "half"])
        a_round(NOW)
        first, second = PlateSlot.objects.filter(job=order.sitting.bench_job)
        builders.made_plate(first, Stage.DRYING, STARTS)
        told = [sent_kinds(now=STARTS + HOUR)]
        builders.made_plate(second, Stage.WASHING, STARTS + HOUR)

        told += [sent_kinds(now=STARTS + HOUR), sent_kinds(now=STARTS + HOUR + 10 * MINUTE)]

        assert told == [[], [], ["in_wash"]]

    def test_a_plate_spoilt_meanwhile_withdraws_it_and_the_next_one_tells_it(self, promised):
        [plate] = builders.made_plates(promised, stage=Stage.WASHING, now=STARTS)
        a_round(STARTS)
        ledger.spoil(
            plate_id=plate.pk, reason=SpoiltReason.LIFTED, note="", operator=None, now=STARTS + MINUTE
        )
        told = [sent_kinds(now=STARTS + 10 * MINUTE)]
        builders.made_plates(promised, stage=Stage.WASHING, now=STARTS + HOUR)
        a_round(STARTS + HOUR)

        told += [sent_kinds(now=STARTS + 2 * HOUR)]

        assert told == [[], ["in_wash"]]

    def test_plates_that_are_ready_by_then_are_told_as_ready(self, promised):
        builders.made_plates(promised, stage=Stage.WASHING, now=STARTS)
        a_round(STARTS)
        plate = promised.sitting.bench_job.slots.get().plates.get()
        for stage in (Stage.DRYING, Stage.VARNISHED, Stage.READY):
            ledger.record_stage(plate_id=plate.pk, stage=stage, operator=None, now=STARTS)

        assert sent_kinds(now=STARTS + HOUR) == ["ready"]


class TestAnswersLookedAtAgain:
    @pytest.fixture
    def handed_over(self, day):
        """An order whose plates went home on STARTS; its client had said yes to one question."""
        order = builders.a_paid_order(day, amount=8500, consents={ConsentPurpose.SHOW: True})
        [plate] = builders.made_plates(order, now=STARTS)
        a_round(STARTS)
        pickup.move_on(plate_id=plate.pk, stage=Stage.HANDED_OVER, operator=None, now=STARTS)
        return order

    def test_they_are_asked_about_so_many_months_after_the_plates_went_home(self, handed_over):
        two_years = STARTS.replace(year=2028)

        told = [sent_kinds(now=two_years + each) for each in (-MINUTE, MINUTE - MINUTE, MINUTE)]

        assert told == [[], ["consent_review"], []]

    @pytest.mark.parametrize("change", ["never", "no yes", "yes anew", "erased"])
    def test_not_where_there_is_nothing_to_ask(self, handed_over, change):
        client = handed_over.client
        match change:
            case "never":
                Studio.objects.update(consent_months=None)
            case "no yes":
                own_data.answer(
                    client_id=client.pk, given=dict.fromkeys(ConsentPurpose, False), now=STARTS + HOUR
                )
            case "yes anew":
                Consent.objects.create(
                    client=client, purpose="show", given=True, at=STARTS + timedelta(days=400)
                )
            case "erased":
                own_data.erase(client_id=client.pk, now=STARTS + HOUR)

        assert sent_kinds(now=STARTS.replace(year=2028)) == []

    def test_months_are_those_of_the_calendar(self):
        # By hand: May has 31 days, and February 2027 has 28.
        assert months_before(datetime(2027, 5, 31, 9, tzinfo=UTC), 3) == datetime(2027, 2, 28, 9, tzinfo=UTC)
        assert months_before(datetime(2027, 1, 5, tzinfo=UTC), 13) == datetime(2025, 12, 5, tzinfo=UTC)
