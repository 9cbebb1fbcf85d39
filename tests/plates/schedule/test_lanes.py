"""The drawing of a day, held against a count of what is in use at every single minute."""

from collections import Counter
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.capacity import Bench, Booked, Day, PlatePlan, Sitting, SittingPlan, Size, occupations
from plates.schedule.lanes import PER_MINUTE, LaneJob, lay_out

DAY = Day(opens=0, closes=480, racks_empty_by=555)
QUARTER, WHOLE = Size("quarter"), Size("whole", wash_places=2)


def clock(minute):
    """Ten o'clock is minute 0."""
    return f"{10 + minute // 60:02d}:{minute % 60:02d}"


def plate_at(pour, wash=60):
    """One plate with the minutes of design s.3: a bath of 3, a wash of 60 unless another is given."""
    return PlatePlan(
        pour=pour,
        tank_in=pour + 2,
        tank_out=pour + 5,
        expose=pour + 6,
        develop=pour + 8,
        fix=pour + 10,
        wash_in=pour + 12,
        lift=pour + 12 + wash,
    )


def job_at(start, *sizes, label="10:00 Ines Madrugada", firm=True, wash=60):
    plates = tuple(plate_at(start + 4 + 11 * place, wash) for place in range(len(sizes)))
    plan = SittingPlan(settle=start, farewell=plates[-1].fix + 2, plates=plates)
    return LaneJob(label, Booked(Sitting(start, sizes), plan), firm)


def drawn(bench, jobs, now=None):
    return lay_out(bench, DAY, jobs, now=now, clock=clock)


def lanes_of(drawing, group):
    return [lane for lane in drawing.lanes if lane.group == group]


def steps(drawing, step):
    return [(lane, bar) for lane in drawing.lanes for bar in lane.bars if bar.step == step]


# Days that no bench could keep are drawn too: the picture must not lie when a bench has been made smaller.
any_jobs = st.lists(
    st.builds(
        lambda start, sizes, firm, wash: job_at(start, *sizes, firm=firm, wash=wash),
        st.integers(0, 400),
        st.lists(st.sampled_from([QUARTER, WHOLE, Size("huge", wash_places=3)]), min_size=1, max_size=3),
        st.booleans(),
        st.integers(60, 120),
    ),
    max_size=12,
)
any_bench = st.builds(
    Bench, operators=st.integers(1, 3), tank_places=st.integers(1, 3), wash_places=st.integers(1, 8)
)


@given(bench=any_bench, jobs=any_jobs)
def test_no_two_bars_of_a_lane_overlap(bench, jobs):
    for lane in drawn(bench, jobs).lanes:
        bars = sorted(lane.bars, key=lambda bar: bar.x)
        assert all(before.x + before.width <= after.x for before, after in pairwise(bars))


@given(bench=any_bench, jobs=any_jobs)
def test_every_place_taken_is_drawn_exactly_once(bench, jobs):
    drawing = drawn(bench, jobs)

    seen = Counter((lane.group, bar.step, bar.x, bar.width) for lane in drawing.lanes for bar in lane.bars)

    wanted = Counter()
    for job in jobs:
        for taken in occupations(bench, job.booked):
            x, width = taken.begin * PER_MINUTE, (taken.end - taken.begin) * PER_MINUTE
            wanted[taken.resource, taken.what, x, width] += taken.amount
    assert seen == wanted


@given(bench=any_bench, jobs=any_jobs)
def test_no_more_lanes_are_filled_than_places_are_in_use_at_once(bench, jobs):
    # Interval partitioning needs as many rows as the busiest minute has occupants (Kleinberg and Tardos,
    # Algorithm Design, s.4.1; cited from memory). The count below looks at every minute by itself.
    in_use = Counter()
    for job in jobs:
        for taken in occupations(bench, job.booked):
            for minute in range(taken.begin, taken.end):
                in_use[taken.resource, minute] += taken.amount

    drawing = drawn(bench, jobs)

    for group in ("sitter", "operator", "tank", "wash"):
        busiest = max([count for (resource, _), count in in_use.items() if resource == group], default=0)
        assert sum(bool(lane.bars) for lane in lanes_of(drawing, group)) == busiest


def test_a_place_that_the_bench_no_longer_has_is_marked():
    both = [job_at(0, QUARTER), job_at(20, QUARTER)]

    drawing = drawn(Bench(wash_places=1), both)

    assert [(lane.name, lane.beyond) for lane in lanes_of(drawing, "wash")] == [
        ("Wash 1", False),
        ("Wash 2", True),
    ]
    assert drawing.beyond


def test_a_day_that_the_bench_can_keep_has_no_lane_beyond_it():
    assert not drawn(Bench(), [job_at(0, QUARTER), job_at(20, QUARTER)]).beyond


def test_every_place_of_the_bench_has_a_lane_though_nothing_is_booked():
    drawing = drawn(Bench(operators=2, tank_places=1, wash_places=6, sitters_at_once=3), [])

    assert Counter(lane.group for lane in drawing.lanes) == {"sitter": 3, "operator": 2, "tank": 1, "wash": 6}


def test_a_plate_of_two_wash_places_lies_in_two_lanes_side_by_side():
    # When the whole plate comes, lanes 1, 3 and 4 are free again and lane 2 is not.
    jobs = [
        job_at(0, QUARTER),
        job_at(5, QUARTER, wash=120),
        job_at(10, QUARTER),
        job_at(15, QUARTER),
        job_at(80, WHOLE),
    ]

    whole = [lane.name for lane, bar in steps(drawn(Bench(), jobs), "wash") if bar.x == 96 * PER_MINUTE]

    assert whole == ["Wash 3", "Wash 4"]


def test_lanes_and_bars_lie_below_each_other_without_touching():
    drawing = drawn(Bench(), [job_at(0, QUARTER)])

    assert all(above.y < below.y for above, below in pairwise(drawing.lanes))
    assert all(
        lane.y <= bar.y and bar.y + bar.height <= lane.y + 22 for lane in drawing.lanes for bar in lane.bars
    )
    assert drawing.lanes[-1].y + 22 <= drawing.height


def test_a_held_sitting_is_told_apart_from_a_promised_one():
    jobs = [job_at(0, QUARTER), job_at(60, QUARTER, firm=False)]

    assert [bar.firm for _, bar in steps(drawn(Bench(), jobs), "wash")] == [True, False]


def test_the_title_of_a_bar_says_who_what_and_when():
    _, wash = steps(drawn(Bench(), [job_at(0, QUARTER)]), "wash")[0]

    assert wash.title == "10:00 Ines Madrugada, plate 1: in the wash 10:16 to 11:16"


@pytest.mark.parametrize(
    ("label", "on_the_bar"),
    [
        ("10:00 Ines Madrugada", "10:00 Ines"),  # a wash of an hour is 120 long, about 15 letters
        ("10:00 Bo", "10:00 Bo"),
        ("10:00 Maximiliane-Theresia", "10:00"),
        ("Maximiliane-Theresia-Sophie", ""),
    ],
)
def test_a_label_is_cut_at_a_word_where_the_bar_is_short(label, on_the_bar):
    _, wash = steps(drawn(Bench(), [job_at(0, QUARTER, label=label)]), "wash")[0]

    assert wash.label == on_the_bar


@pytest.mark.parametrize(("now", "x", "label"), [(0, 0, "10:00"), (75, 150, "11:15"), (555, 1110, "19:15")])
def test_the_line_of_now_stands_where_the_minute_is(now, x, label):
    drawing = drawn(Bench(), [], now=now)

    assert (drawing.now_x, drawing.now_label) == (x, label)


@pytest.mark.parametrize("now", [None, -1, 556])
def test_there_is_no_line_of_now_outside_the_day(now):
    assert drawn(Bench(), [], now=now).now_x is None


def test_a_wash_that_outlasts_the_day_still_fits_into_the_drawing():
    drawing = drawn(Bench(), [job_at(520, QUARTER)])

    assert all(bar.x + bar.width <= drawing.width for lane in drawing.lanes for bar in lane.bars)


def test_the_hours_of_a_day_that_opens_at_half_past_are_whole_hours():
    drawing = lay_out(Bench(), DAY, [], now=None, clock=lambda minute: clock(minute + 30))

    assert [(tick.x, tick.label) for tick in drawing.ticks[:2]] == [(60, "11:00"), (180, "12:00")]


@pytest.mark.parametrize(
    ("opens", "hours"),
    [
        # The clock of Lisbon goes from 01:00 to 02:00 on 29 March 2026 and from 02:00 back to 01:00 on 25 October
        # (tz database): one hour is never shown, one is shown twice, and each is sixty real minutes wide.
        (datetime(2026, 3, 29, 0, 0, tzinfo=UTC), ["00:00", "02:00", "03:00", "04:00"]),
        (datetime(2026, 10, 24, 23, 0, tzinfo=UTC), ["00:00", "01:00", "01:00", "02:00"]),
    ],
)
def test_hours_follow_the_clock_through_the_nights_it_is_changed(opens, hours):
    def lisbon(minute):
        return f"{(opens + timedelta(minutes=minute)).astimezone(ZoneInfo('Europe/Lisbon')):%H:%M}"

    ticks = lay_out(Bench(), DAY, [], now=None, clock=lisbon).ticks[:4]

    assert [tick.label for tick in ticks] == hours
    assert [tick.x for tick in ticks] == [0, 120, 240, 360]


def test_the_table_says_in_words_what_the_drawing_shows():
    times = drawn(Bench(), [job_at(0, QUARTER, WHOLE)]).plates

    assert [(each.number, each.size, each.pour, each.bath, each.wash, each.lift) for each in times] == [
        (1, "quarter", "10:04", "10:06", "10:16", "11:16"),
        (2, "whole", "10:15", "10:17", "10:27", "11:27"),
    ]


def test_the_summary_counts_what_is_promised_and_what_is_held():
    jobs = [job_at(0, QUARTER, QUARTER), job_at(60, QUARTER, firm=False)]

    assert drawn(Bench(), jobs).summary == (
        "From 10:00 to 18:00, racks empty by 19:15: 2 sittings, 1 of them promised, with 3 plates."
    )
