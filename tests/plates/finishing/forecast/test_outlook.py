"""Promise dates worked out by hand: times without any spread, so that every run is the same."""

from datetime import date

import numpy as np
import pytest
from scipy import stats

from plates.finishing.forecast import Lying, Spread
from plates.finishing.forecast.outlook import RUNS, _minutes, look_ahead
from tests.plates.finishing.racks import days, surely, work

MON, TUE, WED, THU = (date(2026, 11, 30), *(date(2026, 12, day) for day in (1, 2, 3)))


def on_the_rack(*keys, racked=0):
    return [Lying(key=key, racked=racked) for key in keys]


def sure(forecast):
    return forecast.sure(0.95)


def test_a_plate_racked_at_seven_is_varnished_at_nine_cured_the_next_day_at_eleven_and_packed_that_day():
    outlook = look_ahead(days(), work(), on_the_rack(1))

    assert sure(outlook.of([1])) == TUE


def test_a_plate_that_is_dry_one_minute_after_nine_waits_for_the_next_morning():
    in_time = look_ahead(days(), work(), on_the_rack(1, racked=60))
    late = look_ahead(days(), work(), on_the_rack(1, racked=61))

    assert (sure(in_time.of([1])), sure(late.of([1]))) == (TUE, WED)


def test_cured_on_the_stroke_of_five_is_packed_and_a_minute_later_is_not():
    """Varnished until eleven; thirty hours later it is five in the afternoon of the next day."""
    outlook = [look_ahead(days(), work(curing=surely(minutes)), on_the_rack(1)) for minutes in (1800, 1801)]

    assert [sure(each.of([1])) for each in outlook] == [TUE, WED]


def test_the_third_plate_of_a_session_of_two_is_varnished_the_next_day():
    outlook = look_ahead(days(), work(), on_the_rack(1, 2, 3))

    assert [sure(outlook.of([key])) for key in (1, 2, 3)] == [TUE, TUE, WED]


def test_an_order_is_ready_when_its_last_plate_is():
    outlook = look_ahead(days(), work(), on_the_rack(1, 2, 3))

    assert sure(outlook.of([1, 3])) == WED


def test_who_was_promised_first_is_varnished_first_if_the_plate_is_dry():
    not_dry, dry = Lying(key=1, racked=61), on_the_rack(2, 3, 4)

    outlook = look_ahead(days(), work(), [not_dry, *dry])

    assert [sure(outlook.of([key])) for key in (1, 2, 3, 4)] == [WED, TUE, TUE, WED]


def test_what_is_asked_for_goes_behind_all_others_and_changes_nothing():
    outlook = look_ahead(days(), work(), on_the_rack(1))

    asked = [sure(outlook.behind(on_the_rack(8, 9))) for _ in range(2)]

    assert asked == [WED, WED]
    assert sure(outlook.behind(on_the_rack(8))) == TUE


def test_a_closed_day_is_neither_varnished_nor_packed_on():
    outlook = look_ahead(days(closed={TUE}), work(), on_the_rack(1))

    assert sure(outlook.of([1])) == WED


def test_a_varnished_plate_only_cures():
    """Varnished yesterday at five: a day later, on the stroke, it is packed."""
    outlook = look_ahead(days(), work(), [Lying(key=1, racked=-2000, varnished=-840)])

    assert sure(outlook.of([1])) == MON


def test_plates_varnished_in_the_session_under_way_have_taken_its_places():
    begun = days(now=days().origin.replace(hour=10))
    done = [Lying(key=key, racked=-600, varnished=-30) for key in (1, 2)]

    outlook = look_ahead(begun, work(), [*done, Lying(key=3, racked=-600)])

    assert sure(outlook.of([3])) == WED


def test_a_calendar_that_does_not_reach_so_far_promises_nothing():
    outlook = look_ahead(days(ahead=2), work(), on_the_rack(1, 2, 3, 4, 5))

    assert sure(outlook.of([5])) is None
    assert outlook.of([5]).chance_by(TUE) == 0


def test_no_calendar_at_all_promises_nothing():
    assert sure(look_ahead(days(ahead=0), work(), []).behind(on_the_rack(1))) is None


def test_of_no_plate_there_is_nothing_to_say():
    outlook = look_ahead(days(), work(), [])

    assert (outlook.of([]), outlook.behind([])) == (None, None)


def test_the_chance_of_a_lone_plate_is_that_of_its_drying_time():
    """Dry within 120 of 60 to 240 minutes, mostly 90: by the distribution function of scipy.stats.triang."""
    drying = Spread(60, 90, 240)
    expected = stats.triang.cdf(120, c=30 / 180, loc=60, scale=180)

    outlook = look_ahead(days(), work(drying=drying), on_the_rack(1))

    assert outlook.of([1]).chance_by(TUE) == pytest.approx(expected, abs=1 / RUNS)


@pytest.mark.parametrize(
    "spread",
    [
        pytest.param((0, 0, 10), id="falling only"),
        pytest.param((5, 10, 10), id="rising only"),
        pytest.param((30, 60, 240), id="both"),
    ],
)
def test_minutes_follow_the_triangular_distribution(spread):
    """The quantile function of scipy.stats.triang."""
    least, usual, most = spread
    shares = (np.arange(RUNS) + 0.5) / RUNS
    expected = stats.triang.ppf(shares, c=(usual - least) / (most - least), loc=least, scale=most - least)

    assert _minutes(Spread(*spread), shares) == pytest.approx(expected)


def test_the_date_is_the_first_that_is_sure_enough():
    """Dry by nine in 47 of 100 cases (the test above): sure enough for 40, for 95 only a day later."""
    outlook = look_ahead(days(), work(drying=Spread(60, 90, 240)), on_the_rack(1))
    forecast = outlook.of([1])

    assert (forecast.sure(0.4), forecast.sure(0.95)) == (TUE, WED)
    assert forecast.chance_by(WED) == 1
