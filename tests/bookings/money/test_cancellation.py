"""Held against: the time zone database (Europe/Lisbon goes from UTC+0 to UTC+1 on 29 March 2026 at
01:00 UTC, and back on 25 October 2026); amounts by hand. That a deposit is kept when a sitter
cancels late is common practice, no source; what may be kept is for local law to say."""

from datetime import UTC, datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings.money import CancellationRule, MoneyValueError, MovingRule, price_of_move, retained_on_cancel

LISBON = ZoneInfo("Europe/Lisbon")
STARTS_AT = datetime(2026, 6, 10, 10, 0, tzinfo=LISBON)
HALF_AFTER_TWO_DAYS = CancellationRule(free_hours=48, kept_bp=5000)
SECOND = timedelta(seconds=1)


@pytest.mark.parametrize(
    ("now", "kept"),
    [
        (STARTS_AT - timedelta(days=30), 0),
        (STARTS_AT - timedelta(hours=48), 0),
        (STARTS_AT - timedelta(hours=48) + SECOND, 2_501),  # half of 50.01 is 25.005, a tie
        (STARTS_AT, 2_501),
        (STARTS_AT + timedelta(days=2), 2_501),
    ],
)
def test_part_of_the_deposit_is_kept_once_the_free_hours_have_begun(now, kept):
    assert retained_on_cancel(HALF_AFTER_TWO_DAYS, 5_001, STARTS_AT, now) == kept


@pytest.mark.parametrize(
    ("starts_at", "free_until_utc"),
    # 10:00 in summer time is 09:00 UTC; 24 real hours earlier it was 09:00 on the wall, not 10:00.
    # 10:00 in winter time is 10:00 UTC; 24 real hours earlier it was 11:00 on the wall.
    [
        (datetime(2026, 3, 29, 10, 0, tzinfo=LISBON), datetime(2026, 3, 28, 9, 0, tzinfo=UTC)),
        (datetime(2026, 10, 25, 10, 0, tzinfo=LISBON), datetime(2026, 10, 24, 10, 0, tzinfo=UTC)),
    ],
)
def test_free_hours_are_real_hours_also_when_the_clock_is_changed(starts_at, free_until_utc):
    rule = CancellationRule(free_hours=24, kept_bp=10_000)
    last_free = free_until_utc.astimezone(LISBON)

    assert retained_on_cancel(rule, 5_000, starts_at, last_free) == 0
    assert retained_on_cancel(rule, 5_000, starts_at, last_free + SECOND) == 5_000


def test_no_free_hours_means_free_until_the_start():
    rule = CancellationRule(free_hours=0, kept_bp=10_000)

    assert retained_on_cancel(rule, 5_000, STARTS_AT, STARTS_AT) == 0
    assert retained_on_cancel(rule, 5_000, STARTS_AT, STARTS_AT + SECOND) == 5_000


@settings(deadline=None)
@given(st.integers(0, 10**9), st.integers(0, 10_000), st.integers(-200, 200))
def test_what_is_kept_never_exceeds_the_deposit(deposit, kept_bp, hours):
    rule = CancellationRule(free_hours=48, kept_bp=kept_bp)

    assert 0 <= retained_on_cancel(rule, deposit, STARTS_AT, STARTS_AT + timedelta(hours=hours)) <= deposit


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({"free_hours": -1, "kept_bp": 0}, "The free hours must be at least 0, got -1."),
        ({"free_hours": 1.5, "kept_bp": 0}, "The free hours must be a whole number, got 1.5."),
        (
            {"free_hours": 0, "kept_bp": 10_001},
            "The kept share in basis points must be at most 10000, got 10001.",
        ),
        ({"free_hours": 0, "kept_bp": -1}, "The kept share in basis points must be at least 0, got -1."),
    ],
)
def test_a_cancellation_rule_refuses_bad_values(values, message):
    with pytest.raises(MoneyValueError) as refusal:
        CancellationRule(**values)

    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("deposit", "starts_at", "now", "message"),
    [
        (-1, STARTS_AT, STARTS_AT, "The deposit paid must be at least 0, got -1."),
        (
            1,
            STARTS_AT.replace(tzinfo=None),
            STARTS_AT,
            "Start and change need datetimes with a time zone.",
        ),
        (
            1,
            STARTS_AT,
            STARTS_AT.replace(tzinfo=None),
            "Start and change need datetimes with a time zone.",
        ),
    ],
)
def test_a_cancellation_refuses_naive_times_and_deposits_below_nothing(deposit, starts_at, now, message):
    with pytest.raises(MoneyValueError) as refusal:
        retained_on_cancel(HALF_AFTER_TWO_DAYS, deposit, starts_at, now)

    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("starts_at", "free_until_utc"),
    # The same two nights as above: 24 real hours before 10:00 on the wall.
    [
        (datetime(2026, 3, 29, 10, 0, tzinfo=LISBON), datetime(2026, 3, 28, 9, 0, tzinfo=UTC)),
        (datetime(2026, 10, 25, 10, 0, tzinfo=LISBON), datetime(2026, 10, 24, 10, 0, tzinfo=UTC)),
    ],
    ids=["spring", "autumn"],
)
def test_a_change_of_time_costs_after_as_many_real_hours(starts_at, free_until_utc):
    rule = MovingRule(free_hours=24, price_bp=2000)

    assert price_of_move(rule, 4_250, starts_at, free_until_utc.astimezone(LISBON)) == 0
    assert price_of_move(rule, 4_250, starts_at, free_until_utc.astimezone(LISBON) + SECOND) == 850


@given(st.integers(0, 10**9), st.integers(0, 10_000))
def test_the_price_of_a_change_is_rounded_half_up(deposit, price_bp):
    """Against Decimal's ROUND_HALF_UP, which is not its default."""
    exact = Decimal(deposit) * price_bp / 10_000

    price = price_of_move(MovingRule(0, price_bp), deposit, STARTS_AT, STARTS_AT + SECOND)

    assert price == exact.quantize(Decimal(1), ROUND_HALF_UP)


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({"free_hours": -1, "price_bp": 0}, "The free hours must be at least 0, got -1."),
        (
            {"free_hours": 0, "price_bp": 10_001},
            "The price in basis points must be at most 10000, got 10001.",
        ),
    ],
    ids=["hours", "price"],
)
def test_a_rule_of_moving_refuses_bad_values(values, message):
    with pytest.raises(MoneyValueError) as refusal:
        MovingRule(**values)

    assert str(refusal.value) == message
