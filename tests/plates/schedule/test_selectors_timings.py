"""What a bench's log teaches, read from the rows."""

import pytest

from plates.bench.models import PlateEvent
from plates.schedule.selectors.timings import presses, timings
from tests import builders
from tests.builders.logs import LENGTHS, a_log

pytestmark = pytest.mark.django_db


@pytest.fixture
def bench():
    return builders.a_bench()


def by_name(bench):
    return {timing.name: timing for timing in timings(bench=bench)}


def test_every_step_stands_beside_its_planned_minutes(bench):
    a_log(bench, 12)

    found = timings(bench=bench)

    # By hand from LENGTHS, in seconds; minutes are the planning values of design s.3 (common practice, no source).
    assert [(each.name, each.planned, each.learned.middle, each.learned.planning) for each in found] == [
        ("bath", "2 + 3 to 5", 300, 5),
        ("expose", "1 + 2", 170, 3),
        ("develop", "2", 150, 3),
        ("fix", "2", 120, 2),
        ("wash", "60 to 120", 3900, 65),
    ]


def test_only_what_hands_do_and_the_plan_does_not_say_is_offered(bench):
    a_log(bench, 12)

    assert {name: timing.offered for name, timing in by_name(bench).items()} == {
        "bath": None,
        "expose": None,
        "develop": 3,
        "fix": None,
        "wash": None,
    }


def test_too_few_plates_offer_nothing(bench):
    a_log(bench, 11)

    timing = by_name(bench)["develop"]

    assert (timing.too_few, timing.learned.plates, timing.least, timing.offered) == (True, 11, 12, None)


def test_sizes_are_told_apart(bench):
    a_log(bench, 12)
    a_log(bench, 2, size="whole", lengths=LENGTHS[:3], first=builders.NOW)

    assert [(size, each.plates) for size, each in by_name(bench)["develop"].by_size] == [
        ("quarter", 12),
        ("whole", 2),
    ]


def test_the_log_of_another_bench_teaches_nothing(bench):
    a_log(builders.a_bench(name="Tent"), 3)

    assert list(presses(bench=bench)) == []
    assert by_name(bench)["develop"].learned.plates == 0


def test_the_newest_plates_count(bench, monkeypatch):
    monkeypatch.setattr("plates.schedule.selectors.timings.NEWEST_PLATES", 2)
    a_log(bench, 5, lengths=())

    newest = PlateEvent.objects.order_by("-plate__number").values_list("plate_id", flat=True)[:2]

    assert sorted(press.plate for press in presses(bench=bench)) == sorted(newest)


def test_any_number_of_plates_is_read_by_one_query(bench, django_assert_num_queries):
    a_log(bench, 3)

    with django_assert_num_queries(1):
        timings(bench=bench)
