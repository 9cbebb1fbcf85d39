"""The wash places told in words are the lanes of the drawing, read here from its bars."""

from hypothesis import given

from plates.schedule.lanes import wash_places
from tests.plates.schedule.test_lanes import PER_MINUTE, any_bench, any_jobs, drawn, lanes_of


def bars_of(drawing):
    """(lane counted from 1, begin, end) of every bar in the wash, in minutes since the left edge."""
    return sorted(
        (number, bar.x // PER_MINUTE, (bar.x + bar.width) // PER_MINUTE)
        for number, lane in enumerate(lanes_of(drawing, "wash"), start=1)
        for bar in lane.bars
    )


@given(bench=any_bench, jobs=any_jobs)
def test_a_plate_is_told_to_lie_where_it_is_drawn(bench, jobs):
    told = wash_places(bench, [job.booked for job in jobs])

    begin = min([0, *(job.booked.plan.settle for job in jobs)])
    assert bars_of(drawn(bench, jobs)) == sorted(
        (place, plan.wash_in - begin, plan.lift - begin)
        for job, plates in zip(jobs, told, strict=True)
        for plan, places in zip(job.booked.plan.plates, plates, strict=True)
        for place in places
    )


@given(bench=any_bench, jobs=any_jobs)
def test_a_plate_has_as_many_places_as_it_takes(bench, jobs):
    told = wash_places(bench, [job.booked for job in jobs])

    assert [[len(set(places)) for places in plates] for plates in told] == [
        [size.wash_places for size in job.booked.sitting.plates] for job in jobs
    ]
