"""Risk in scenario files: the list for the given sittings, and starts that somebody's waiting closes."""

import json

import pytest

from plates.capacity.exact.openings import decided
from plates.capacity.problem.case import Case
from plates.capacity.risk.assess import risk
from plates.capacity.risk.values import Chances
from plates.capacity.risk.waiting import waits_too_often
from plates.capacity.scenario.answer import answer
from plates.capacity.scenario.reading import read
from plates.capacity.verify.day import problems
from tests.plates.capacity.days import QUARTER
from tests.plates.capacity.scenario.scenarios import EXAMPLE, asked, minutes, plans

HOURS = {"opens": "10:00", "closes": "12:00", "racks_empty_by": "13:30"}
CLOSE = [{"start": start, "plates": ["quarter"]} for start in ("10:00", "10:30", "10:50")]


def limited(limit, **changes):
    given = {"day": HOURS, "sittings": CLOSE, "ask": {"plates": ["quarter"]}, "risk": {"chance_limit": limit}}
    return asked(**{**given, **changes})


def test_the_list_tells_the_luck_of_every_given_sitting():
    text = json.dumps({"day": HOURS, "sittings": CLOSE})
    scenario = read(text)
    found = answer(scenario)
    booked = list(plans(scenario, found))

    played = risk(scenario.bench, scenario.day, booked, Chances()).sitters

    assert [each["sitting"] for each in found["risk"]] == [0, 1, 2]
    for each, sitter in zip(found["risk"], played, strict=True):
        assert list(each) == ["sitting", "chance", "upper", "mean_wait"]
        assert each["chance"] == pytest.approx(sitter.chance, abs=5e-5)
        assert each["upper"] == pytest.approx(sitter.upper, abs=5e-5)
        assert each["mean_wait"] == pytest.approx(sitter.mean_wait, abs=5e-3)


def test_the_chances_of_the_example_are_the_usual_ones():
    assert read(EXAMPLE).chances == read('{"day": {}}').chances == Chances()


def test_given_chances_are_reckoned_with():
    calm = {"retake": 0, "no_show": 0, "spread": 0, "late_sd": 0, "wait_limit": 5}

    assert [each["chance"] for each in asked(day=HOURS, sittings=CLOSE, risk=calm)["risk"]] == [0, 0, 0]
    spoilt = asked(day=HOURS, sittings=CLOSE, risk={**calm, "retake": 0.5})["risk"]
    # By hand: 20 minutes after the second sitter a retake of 12 minutes makes the third wait about ten.
    assert spoilt[0]["chance"] == 0
    assert spoilt[2]["chance"] > 0.4


@pytest.mark.parametrize("sittings", [[], [{"start": "09:00", "plates": ["quarter"]}]])
def test_where_nothing_is_planned_nothing_is_played(sittings):
    assert asked(sittings=sittings)["risk"] == []


def test_a_limit_closes_starts_that_would_make_somebody_wait():
    every, some = limited(None), limited(0.1)
    waiting = [each for each in some["refused"] if each["why"] == "waiting"]

    assert waiting
    assert set(some["starts"]) < set(every["starts"])
    assert {each["start"] for each in waiting} == set(every["starts"]) - set(some["starts"])
    for each in waiting:
        assert each["from"] >= "10:00"
        assert minutes(each["to"]) == minutes(each["from"]) + 10
    starts = [each["start"] for each in some["refused"]]
    assert starts == sorted(starts)


def test_who_is_named_waits_too_often_with_the_refused_sitting():
    for refused in [each for each in limited(0.1)["refused"] if each["why"] == "waiting"]:
        more = [*CLOSE, {"start": refused["start"], "plates": ["quarter"]}]
        found = asked(day=HOURS, sittings=more)
        waits = {more[each["sitting"]]["start"]: each["upper"] for each in found["risk"]}
        assert waits[refused["from"]] >= 0.1


def test_one_more_pair_of_hands_is_named_where_it_lets_the_sitting_in():
    refused = [each for each in limited(0.1)["refused"] if each["lifted_by"] == "operators+1"]
    waiting = {each["start"] for each in refused if each["why"] == "waiting"}

    assert waiting
    assert waiting <= set(limited(0.1, bench={"operators": 2})["starts"])


def test_every_start_left_open_has_a_sound_plan_with_which_nobody_waits_too_often():
    scenario = read(json.dumps({"day": HOURS, "sittings": CLOSE}))
    booked = tuple(plans(scenario, answer(scenario)))
    case, limit = Case(scenario.bench, scenario.day, booked), Chances(chance_limit=0.1)

    for start in decided(case, (QUARTER,), limit).starts:
        clock = f"{start // 60}:{start % 60:02d}"
        more = read(json.dumps({"day": HOURS, "sittings": [*CLOSE, {"start": clock, "plates": ["quarter"]}]}))
        after = list(plans(more, answer(more)))
        assert problems(more.bench, more.day, after) == ()
        assert waits_too_often(more.bench, more.day, booked, after, limit) is None


def test_under_a_limit_of_nought_nobody_is_let_in_and_under_one_everybody():
    # An upper bound is never nought, and only reaches 1 where a sitter always waits.
    none, everybody = limited(0), limited(1)

    assert none["starts"] == []
    assert everybody["starts"] == limited(None)["starts"]


def test_a_limit_does_not_touch_what_the_bench_cannot_make():
    full = [each["start"] for each in limited(None)["refused"]]

    assert [each["start"] for each in limited(0.1)["refused"] if each["why"] != "waiting"] == full
