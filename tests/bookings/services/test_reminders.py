"""Letters that time makes due: found by the state of the rows, true when they go, and stopped for good."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.core import mail as outbox

from bookings import stop_links
from bookings.errors import LinkInvalid
from bookings.models import Client, Consent, ConsentPurpose, Notice, NoticeKind, ReminderStop, Studio
from bookings.selectors.letters import stopped_at
from bookings.selectors.reminders import months_before
from bookings.services import due, notices, own_data, pickup, reminders, sittings
from plates.models import PlateSlot, SpoiltReason, Stage
from plates.services import ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

HOUR, MINUTE = timedelta(hours=1), timedelta(minutes=1)
STARTS = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
DAY_BEFORE = STARTS - 24 * HOUR


def letters(order, kind):
    return list(order.notices.filter(kind=kind).order_by("pk"))


def a_round(now):
    """What a drain does about letters, without the work that takes long."""
    pickup.announce_ready(now=now)
    reminders.queue_due(now=now)
    notices.send_due(now=now)


def sent_kinds(*, now):
    before = len(outbox.outbox)
    a_round(now)
    ids = [letter.extra_headers["Message-ID"] for letter in outbox.outbox[before:]]
    return sorted(Notice.objects.filter(message_id__in=ids).values_list("kind", flat=True))


@pytest.fixture
def day():
    return builders.a_day()


@pytest.fixture
def promised(day):
    order = builders.a_paid_order(day)
    a_round(NOW)
    return order


class TestADayBefore:
    @pytest.mark.parametrize(
        ("now", "kinds"),
        [
            (DAY_BEFORE - MINUTE, []),
            (DAY_BEFORE, ["day_before"]),
            (STARTS - MINUTE, ["day_before"]),  # nobody looked for most of a day
            (STARTS, []),
        ],
        ids=["too early", "a day before", "long missed", "too late"],
    )
    def test_a_promised_sitting_is_told_of_within_its_last_day(self, promised, now, kinds):
        assert sent_kinds(now=now) == kinds

    def test_it_is_told_once(self, promised):
        told = [sent_kinds(now=DAY_BEFORE + hours * HOUR) for hours in (0, 1, 2)]

        assert told == [["day_before"], [], []]

    def test_a_sitting_that_is_only_held_is_not(self, day):
        order = builders.a_placed_order(day, now=DAY_BEFORE - 30 * HOUR)

        a_round(DAY_BEFORE + HOUR)

        assert letters(order, "day_before") == []

    def test_who_was_confirmed_within_that_day_needs_no_reminding(self, day):
        order = builders.a_paid_order(day, now=DAY_BEFORE + HOUR)

        assert sent_kinds(now=DAY_BEFORE + 2 * HOUR) == ["confirmed"]
        assert letters(order, "day_before") == []

    def test_a_moved_sitting_is_told_of_anew(self, promised):
        a_round(DAY_BEFORE)
        later = builders.a_day(
            on=builders.SATURDAY + timedelta(days=7), bench=promised.sitting.day.bench_day.bench
        )

        sittings.move(
            order_id=promised.pk, day_id=later.pk, starts_at=STARTS + timedelta(days=7), now=DAY_BEFORE + HOUR
        )

        assert sent_kinds(now=DAY_BEFORE + timedelta(days=6)) == ["confirmed"]
        assert sent_kinds(now=DAY_BEFORE + timedelta(days=7)) == ["day_before"]

    @pytest.mark.parametrize("change", ["cancelled", "moved", "begun"])
    def test_one_that_waits_is_withdrawn_when_it_is_no_longer_true(self, promised, change):
        reminders.queue_due(now=DAY_BEFORE)
        if change == "cancelled":
            sittings.cancel(order_id=promised.pk, now=DAY_BEFORE)
        elif change == "moved":
            day = promised.sitting.day
            sittings.move(order_id=promised.pk, day_id=day.pk, starts_at=STARTS + 2 * HOUR, now=DAY_BEFORE)
        else:
            ledger.pour(slot_id=PlateSlot.objects.get().pk, operator=None, now=DAY_BEFORE)

        notices.send_due(now=DAY_BEFORE + MINUTE)

        [letter] = letters(promised, "day_before")
        assert (letter.sent_at, letter.withdrawn_at) == (None, DAY_BEFORE + MINUTE)


class TestTheDepositThatIsMissing:
    # The place is held for 48 hours from NOW; its client was asked for the deposit three minutes after NOW.
    @pytest.mark.parametrize(
        ("hours", "kinds"), [(35, []), (36, ["deposit_missing"]), (47, ["deposit_missing"]), (48, [])]
    )
    def test_it_is_asked_for_once_more_before_the_hold_runs_out(self, day, hours, kinds):
        builders.a_placed_order(day)
        a_round(NOW + HOUR)

        assert sent_kinds(now=NOW + hours * HOUR) == kinds

    def test_not_when_it_has_come(self, promised):
        assert sent_kinds(now=NOW + 40 * HOUR) == []

    def test_not_when_it_comes_before_the_letter_goes(self, day):
        order = builders.a_placed_order(day)
        a_round(NOW + HOUR)
        reminders.queue_due(now=NOW + 40 * HOUR)
        builders.pay(order, 4250, now=NOW + 40 * HOUR)

        notices.send_due(now=NOW + 40 * HOUR)

        assert letters(order, "deposit_missing")[0].withdrawn_at == NOW + 40 * HOUR

    def test_a_short_hold_asks_no_second_time(self, day):
        builders.a_studio(deposit_hours=12)
        order = builders.a_placed_order(day)

        told = [sent_kinds(now=NOW + minutes * MINUTE) for minutes in (3, 360, 719)]

        assert told == [["deposit_due"], [], []]
        assert letters(order, "deposit_missing") == []


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


class TestStopping:
    @pytest.fixture
    def token(self, promised):
        return stop_links.token(promised.client.email)

    def test_an_address_that_stopped_them_gets_none_and_everything_else(self, promised, token):
        reminders.stop(token=token, now=NOW)

        told = [sent_kinds(now=DAY_BEFORE)]
        sittings.cancel(order_id=promised.pk, now=DAY_BEFORE + HOUR)

        assert [*told, sent_kinds(now=DAY_BEFORE + HOUR)] == [[], ["cancelled"]]
        assert letters(promised, "day_before")[0].withdrawn_at == DAY_BEFORE

    def test_it_holds_for_every_order_of_that_address_however_it_is_written(self, day, promised, token):
        other = builders.a_placed_order(day, at=time(12), email="INES@Example.org")

        reminders.stop(token=token, now=NOW)

        assert stopped_at(other) == NOW

    def test_another_address_is_still_reminded(self, day, token):
        other = builders.a_placed_order(day, at=time(12), email="abel@example.org")

        reminders.stop(token=token, now=NOW)

        assert stopped_at(other) is None

    def test_stopping_twice_keeps_the_first_time(self, promised, token):
        for hours in (0, 1):
            reminders.stop(token=token, now=NOW + hours * HOUR)

        assert stopped_at(promised) == NOW

    def test_they_can_be_wanted_again(self, promised, token):
        reminders.stop(token=token, now=NOW)

        reminders.allow(token=token)

        assert sent_kinds(now=DAY_BEFORE) == ["day_before"]

    def test_it_holds_after_the_secret_was_changed(self, promised, token, settings):
        reminders.stop(token=token, now=NOW)

        settings.SECRET_KEY_FALLBACKS, settings.SECRET_KEY = [settings.SECRET_KEY], "another " * 8

        assert stopped_at(promised) == NOW
        assert stop_links.read(token) == stop_links.digests("ines@example.org")[1]

    def test_nothing_kept_of_it_names_the_address(self, promised, token):
        reminders.stop(token=token, now=NOW)

        [kept] = ReminderStop.objects.values_list("digest", flat=True)
        assert "ines" not in kept + token
        assert len(kept) == 64

    def test_a_link_that_was_not_made_here_stops_nothing(self, token):
        with pytest.raises(LinkInvalid, match="not complete"):
            reminders.stop(token=token[:-1], now=NOW)

        assert not ReminderStop.objects.exists()


def test_the_drain_does_it(promised):
    assert due.drain(now=DAY_BEFORE) == 1


def test_a_client_without_an_address_is_not_looked_at_again_and_again(promised):
    Client.objects.update(email="")

    assert sent_kinds(now=DAY_BEFORE) == []


def test_looking_costs_two_queries_when_nothing_is_due(promised, django_assert_num_queries):
    with django_assert_num_queries(2):
        assert reminders.queue_due(now=NOW + HOUR) == []


def test_without_a_studio_nobody_is_reminded(db):
    assert reminders.queue_due(now=NOW) == []


def test_a_confirmation_that_waited_is_overtaken_by_the_next_one(day):
    order = builders.a_paid_order(day)
    sittings.move(order_id=order.pk, day_id=day.pk, starts_at=STARTS + HOUR, now=NOW)

    notices.send_due(now=NOW)

    first, second = letters(order, NoticeKind.CONFIRMED)
    assert (first.withdrawn_at, second.sent_at) == (NOW, NOW)
