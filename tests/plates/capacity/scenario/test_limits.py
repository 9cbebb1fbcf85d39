"""Scenario files at their edges: off the grid, the most of a day, budgets, tanks, midnight, the command itself."""

import json

import pytest

from plates.capacity.__main__ import main
from plates.capacity.scenario.answer import answer
from plates.capacity.scenario.reading import read
from tests.plates.capacity.scenario.scenarios import EXAMPLE, asked


def test_sittings_may_stand_off_the_grid():
    found = asked(sittings=[{"start": "10:07", "plates": ["whole"]}])

    assert found["feasible"] is True
    assert found["plan"][0]["settle"] >= "10:07"


def test_the_plans_stand_in_the_order_of_the_file():
    late_first = [{"start": "15:00", "plates": ["quarter"]}, {"start": "11:00", "plates": ["whole"]}]
    found = asked(sittings=late_first)

    assert [each["sitting"] for each in found["plan"]] == [0, 1]
    assert found["plan"][0]["settle"] >= "15:00" > found["plan"][1]["settle"]


@pytest.mark.parametrize(("places", "maximum"), [(2, 16), (4, 30), (6, 30), (8, 30)])
def test_the_most_is_exact_and_proven(places, maximum):
    # reference: capacity research s.5a and the design page s.3: computed there with CP-SAT.
    found = asked(bench={"wash_places": places}, most={"plates": ["quarter"]})

    assert found["most"] == {"sittings": maximum, "proven": True}


def test_a_budget_and_a_tank_bound_what_is_asked():
    found = asked(
        budgets=[{"name": "collodion", "left": 3, "use": {"quarter": 4}}], ask={"plates": ["quarter"]}
    )

    assert found["starts"] == []
    assert {(each["why"], each["lifted_by"]) for each in found["refused"]} == {
        ("budget:collodion", "collodion+1"),
        ("budget:collodion", None),
    }


def test_a_plate_larger_than_the_tank_is_refused():
    found = asked(
        bench={"largest_mm": [110, 85]}, sizes={"quarter": {"mm": [83, 108]}, "half": {"mm": [108, 140]}},
        ask={"plates": ["half"]},
    )  # fmt: skip

    assert {each["why"] for each in found["refused"]} == {"size"}


def test_a_day_past_midnight_is_written_with_hours_that_run_on():
    found = asked(
        day={"opens": "20:00", "closes": "25:00", "racks_empty_by": "26:30"}, ask={"plates": ["quarter"]}
    )

    assert found["starts"][-1] == "24:30"


def test_the_command_answers_a_file(tmp_path, capsys):
    file = tmp_path / "scenario.json"
    file.write_text(EXAMPLE)

    assert main([str(file)]) == 0
    out = capsys.readouterr()
    assert json.loads(out.out) == json.loads(json.dumps(answer(read(EXAMPLE))))
    assert out.err == ""
