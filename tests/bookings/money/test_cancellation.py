"""Held against: the time zone database (Europe/Lisbon goes from UTC+0 to UTC+1 on 29 March 2026 at
01:00 UTC, and back on 25 October 2026); amounts by hand. That a deposit is kept when a sitter
cancels late is common practice, no source; what may be kept is for local law to say."""

from datetime import UTC, datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import CancellationRule, MovingRule, price_of_move, retained_on_cancel

LISBON = ZoneInfo("Europe/Lisbon")
STARTS_AT = datetime(2026, 6, 10, 10, 0, tzinfo=LISBON)
HALF_AFTER_TWO_DAYS = CancellationRule(free_hours=48, kept_bp=5000)
NAIVE = STARTS_AT.replace(tzinfo=None)
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
    ("starts_at", "free_hours", "free_until_utc"),
    # 10:00 in summer time is 09:00 UTC; 24 real hours earlier it was 09:00 on the wall, not 10:00.
    # 10:00 in winter time is 10:00 UTC; 24 real hours earlier it was 11:00 on the wall.
    [
        (datetime(2026, 3, 29, 10, 0, tzinfo=LISBON), 24, datetime(2026, 3, 28, 9, 0, tzinfo=UTC)),
        (datetime(2026, 10, 25, 10, 0, tzinfo=LISBON), 24, datetime(2026, 10, 24, 10, 0, tzinfo=UTC)),
        (STARTS_AT, 0, STARTS_AT),
    ],
    ids=["spring", "autumn", "no free hours"],
)
def test_free_hours_are_real_hours_also_when_the_clock_is_changed(starts_at, free_hours, free_until_utc):
    last_free = free_until_utc.astimezone(LISBON)
    cancel, move = CancellationRule(free_hours, kept_bp=10_000), MovingRule(free_hours, price_bp=2000)

    for now, kept, price in ((last_free, 0, 0), (last_free + SECOND, 5_000, 850)):
        assert retained_on_cancel(cancel, 5_000, starts_at, now) == kept
        assert price_of_move(move, 4_250, starts_at, now) == price


@given(st.integers(0, 10**9), st.integers(0, 10_000), st.integers(-200, 200))
def test_what_is_kept_never_exceeds_the_deposit(deposit, kept_bp, hours):
    rule = CancellationRule(free_hours=48, kept_bp=kept_bp)

    assert 0 <= retained_on_cancel(rule, deposit, STARTS_AT, STARTS_AT + timedelta(hours=hours)) <= deposit


@given(st.integers(0, 10**9), st.integers(0, 10_000))
def test_the_price_of_a_change_is_rounded_half_up(deposit, price_bp):
    """Against Decimal's ROUND_HALF_UP, which is not its default."""
    exact = Decimal(deposit) * price_bp / 10_000

    price = price_of_move(MovingRule(0, price_bp), deposit, STARTS_AT, STARTS_AT + SECOND)

    assert price == exact.quantize(Decimal(1), ROUND_HALF_UP)
