"""Scenario files in and answers out: the keys and the example of the design page s.3."""

import json
from dataclasses import fields

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plates.capacity import Bench, Day, PlatePlan, Span, Timings
from plates.capacity.exact import openings as exact_openings
from plates.capacity.gaps.packing import packed
from plates.capacity.gaps.windows import overloaded
from plates.capacity.scenario import answer as scenario_answer
from plates.capacity.scenario.answer import answer
from plates.capacity.scenario.reading import read
from tests.plates.capacity import oracle
from tests.plates.capacity.scenario.scenarios import EXAMPLE, asked, plans


def test_the_defaults_are_those_of_the_example():
    given, usual = read(EXAMPLE), read('{"day": {}}')

    assert (usual.bench, usual.day, usual.sizes) == (given.bench, given.day, given.sizes)
    assert given.bench == Bench(timings=Timings(sensitise=Span(3, 5), wash=Span(60, 120)))
    assert given.day == Day(600, 1080, 1155, 15)


def test_the_example_has_every_key_of_the_answer():
    found = answer(read(EXAMPLE))

    assert list(found) == ["feasible", "plan", "starts", "refused", "unknown", "hours", "risk"]
    assert list(found["plan"][0]) == ["sitting", "settle", "farewell", "plates"]
    assert list(found["plan"][0]["plates"][0]) == [field.name for field in fields(PlatePlan)]
    assert list(found["refused"][0]) == ["start", "why", "from", "to", "lifted_by"]
    assert list(found["hours"][0]) == ["hour", "plates_booked", "plates_limit", "bound_by"]


def test_the_plan_of_the_example_is_sound_for_the_second_judge():
    scenario = read(EXAMPLE)
    found = answer(scenario)

    assert (found["feasible"], found["unknown"]) == (True, [])
    assert oracle.sound(scenario.bench, scenario.day, list(plans(scenario, found)))


def test_starts_and_refusals_make_up_the_grid():
    found = answer(read(EXAMPLE))
    grid = [f"{minute // 60}:{minute % 60:02d}" for minute in range(600, 1080, 15)]

    assert sorted([*found["starts"], *(each["start"] for each in found["refused"])]) == grid
    assert found["unknown"] == []
    assert "11:00" in found["starts"]
    # By hand: a single plate is at least 18 minutes, so 17:45 is too late for closing at 18:00.
    assert (found["refused"][-1]["start"], found["refused"][-1]["why"]) == ("17:45", "closing")


def test_the_plates_of_the_example_are_counted_in_their_hour():
    found = answer(read(EXAMPLE))["hours"]

    assert [hour["hour"] for hour in found] == [f"{hour}:00" for hour in range(10, 18)]
    assert [hour["plates_booked"] for hour in found] == [2, 0, 0, 0, 0, 0, 0, 0]


def test_with_nothing_asked_there_are_no_starts():
    found = asked()

    assert (found["feasible"], found["plan"], found["starts"], found["refused"]) == (True, [], [], [])


@pytest.mark.parametrize(
    "changes",
    [
        # By hand: three single plates need 45 minutes of hands within 43 (see test_bounds.py).
        {"sittings": [{"start": "10:00", "plates": ["quarter"]}] * 3},
        {"sittings": [{"start": "09:00", "plates": ["quarter"]}]},
        {"sittings": [{"start": "17:45", "plates": ["quarter"]}]},
        {"bench": {"wash_places": 1}, "sittings": [{"start": "10:00", "plates": ["quarter", "quarter"]}]},
        {"budgets": [{"name": "silver", "left": 0}], "sittings": [{"start": "10:00", "plates": ["quarter"]}]},
    ],
)
def test_what_a_bound_rules_out_is_not_feasible(changes):
    found = asked(ask={"plates": ["quarter"]}, **changes)

    assert found["feasible"] is False
    assert (found["plan"], found["starts"], found["unknown"], found["hours"]) == ([], [], [], [])


def test_what_insertion_cannot_lay_out_is_planned_exactly():
    # Two plates for each of two sitters at one time: their plates have to be braided.
    both = [{"start": "10:00", "plates": ["quarter", "quarter"]}] * 2
    scenario = read(json.dumps({"day": {}, "sittings": both}))
    found = answer(scenario)

    assert packed(scenario.bench, scenario.day, scenario.sittings) is None
    assert (found["feasible"], found["unknown"]) == (True, [])
    assert oracle.sound(scenario.bench, scenario.day, list(plans(scenario, found)))


def test_what_no_bound_shows_is_proven_impossible():
    # By hand: one operator settles the second sitter at 10:04 at the earliest, after the first.
    both = [{"start": "10:00", "plates": ["quarter"]}] * 2
    scenario = read(json.dumps({"day": {}, "tolerance": 3, "sittings": both}))

    assert overloaded(scenario.bench, scenario.day, scenario.sittings) is None
    assert answer(scenario)["feasible"] is False


def test_every_start_is_one_that_can_be_run_with_the_others():
    booked = [{"start": "10:00", "plates": ["quarter", "quarter"]}]
    found = asked(day={"closes": "12:00"}, sittings=booked, ask={"plates": ["quarter"]})

    for start in (*found["starts"], *(each["start"] for each in found["refused"])):
        both = asked(day={"closes": "12:00"}, sittings=[*booked, {"start": start, "plates": ["quarter"]}])
        assert both["feasible"] is (start in found["starts"])


def test_what_lifts_a_refusal_makes_it_feasible():
    booked = [{"start": "10:00", "plates": ["quarter", "quarter"]}] * 2
    found = asked(sittings=booked, ask={"plates": ["quarter"]})
    lifted = [each["start"] for each in found["refused"] if each["lifted_by"] == "operators+1"]

    assert lifted
    for start in lifted:
        three = [*booked, {"start": start, "plates": ["quarter"]}]
        assert asked(bench={"operators": 2}, sittings=three)["feasible"] is True


def test_starts_not_decided_in_time_are_unknown(monkeypatch):
    monkeypatch.setattr(exact_openings, "SECONDS_A_START", 1e-7)
    found = asked(
        sittings=[{"start": "10:00", "plates": ["quarter", "quarter"]}] * 2, ask={"plates": ["quarter"]}
    )

    assert found["unknown"]
    assert not set(found["unknown"]) & {*found["starts"], *(each["start"] for each in found["refused"])}


def test_a_day_not_decided_in_time_is_unknown(monkeypatch):
    monkeypatch.setattr(scenario_answer, "SECONDS", 1e-7)
    both = [{"start": "10:00", "plates": ["quarter", "quarter"]}] * 2
    found = asked(sittings=both, ask={"plates": ["quarter"]})

    assert found["feasible"] is None
    assert found["unknown"] == ["feasible", "starts"]
    assert (found["plan"], found["starts"]) == ([], [])


promises = st.fixed_dictionaries(
    {
        "start": st.sampled_from(
            [f"{hour}:{minute:02d}" for hour in (10, 11, 12) for minute in (0, 7, 15, 30)]
        ),
        "plates": st.lists(st.sampled_from(["quarter", "whole"]), min_size=1, max_size=3),
    }
)
benches = st.fixed_dictionaries(
    {"operators": st.integers(1, 2), "tank_places": st.integers(1, 2), "wash_places": st.integers(1, 8),
     "sitters_at_once": st.integers(1, 3)}
)  # fmt: skip


@settings(max_examples=30)
@given(bench=benches, sittings=st.lists(promises, max_size=3), tolerance=st.integers(0, 9))
def test_whatever_is_called_feasible_is_sound_and_whatever_is_not_has_no_plan(bench, sittings, tolerance):
    text = json.dumps(
        {"day": {"closes": "14:00"}, "bench": bench, "tolerance": tolerance, "sittings": sittings}
    )
    scenario = read(text)
    found = answer(scenario)

    assert (found["feasible"] is True) == (len(found["plan"]) == len(sittings))
    assert found["unknown"] == ([] if found["feasible"] is not None else ["feasible"])
    if found["feasible"]:
        assert oracle.sound(scenario.bench, scenario.day, list(plans(scenario, found)))
