"""Words and small pictures of the bench."""

import re
from decimal import Decimal

import pytest
from django.template import Context, Template

from plates.bench.models import PlateSize, Stage
from plates.bench.stages import NEXT_STAGE
from plates.capacity.refusals.explain import SENTENCES
from plates.templatetags.bench_words import binding, press, way


def test_every_stage_that_can_be_pressed_has_a_word_for_its_button():
    words = [press(stage) for stage in [Stage.POURED, *NEXT_STAGE.values()]]

    assert len(set(words)) == 10
    assert words[0] == "Pour"
    assert words[-1] == "Hand over"


def test_a_plate_in_the_wash_has_five_stages_behind_it_and_four_ahead():
    states = [step.state for step in way("washing")]

    assert states == ["gone"] * 5 + ["here"] + ["ahead"] * 4


@pytest.mark.parametrize("stage", [None, "", "spoilt"])
def test_a_plate_that_is_not_on_its_way_has_every_stage_ahead(stage):
    assert {step.state for step in way(stage)} == {"ahead"}


def test_every_reason_the_engine_can_give_is_said_in_the_words_of_the_studio():
    reasons = set(SENTENCES) - {
        "budget",
        "grid",
    }  # a budget has a name; a start off the grid is never offered

    assert all(binding(why) != why for why in reasons)
    assert binding("budget:silver nitrate") == "the silver nitrate in stock"


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("sixth", "69.85", "82.55"), ("whole", "165.1", "215.9")],  # inches x 25.4: reference, trade facts s.1
)
def test_a_plate_is_drawn_in_its_true_proportion(name, width, height):
    size = PlateSize(name=name, width_mm=Decimal(width), height_mm=Decimal(height))

    drawn = Template("{% load bench_words %}{% plate_picture size %}").render(Context({"size": size}))

    across, down = (int(found) - 2 for found in re.search(r'width="(\d+)" height="(\d+)"', drawn).groups())
    assert across == pytest.approx(float(width) * 0.36, abs=0.5)
    assert down == pytest.approx(float(height) * 0.36, abs=0.5)
