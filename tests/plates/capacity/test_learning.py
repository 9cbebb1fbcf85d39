"""Learned minutes against other people's statistics (SciPy), and against plates whose presses went astray."""

from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import median_abs_deviation
from scipy.stats.mstats import mquantiles

from plates.capacity import CapacityValueError
from plates.capacity.learning import LEAST_PLATES, Learned, Press, learned, lessons, plausible

# Within four times of one another, so that none is odd.
ALIKE = st.lists(st.integers(100, 199), min_size=LEAST_PLATES, max_size=60)
STAGES = ("poured", "sensitised", "exposed", "developed", "fixed", "washing", "drying")


def plate(number, start, lengths=(300, 200, 130, 100, 20, 4000), size="quarter", hands=1):
    """The presses of one plate, each so many seconds after the last."""
    second, presses = start, [Press(number, size, "poured", start, hands)]
    for stage, length in zip(STAGES[1:], lengths, strict=False):
        second += length
        presses.append(Press(number, size, stage, second, hands))
    return presses


def plates(count, **changes):
    """Plates made one after the other, far apart."""
    return [press for number in range(count) for press in plate(number, 10_000 * number, **changes)]


def by_name(presses):
    return {lesson.step.name: lesson for lesson in lessons(presses)}


@given(lengths=ALIKE)
def test_middle_and_spread_are_those_of_scipy(lengths):
    found = learned(lengths)

    # scipy.stats.median_abs_deviation, scale "normal"; 1.4826 is that factor to four places (R, stats::mad).
    assert found.spread == pytest.approx(median_abs_deviation(lengths, scale="normal"), rel=1e-4, abs=1e-9)
    assert found.middle == pytest.approx(mquantiles(lengths, [0.5], alphap=0, betap=0)[0])
    assert (found.plates, found.left_out) == (len(lengths), 0)


@given(lengths=ALIKE)
def test_the_planning_value_is_the_quantile_of_four_in_five_rounded_up_to_minutes(lengths):
    # scipy.stats.mstats.mquantiles with alphap = betap = 0: p(k) = k/(n+1), type 6 of R, "exclusive" of Python.
    quantile = mquantiles(lengths, [0.8], alphap=0, betap=0)[0]

    assert learned(lengths).planning == ceil(round(quantile, 6) / 60)


def test_a_quantile_of_whole_minutes_is_not_rounded_up_to_the_next():
    assert learned([120] * 20) == Learned(plates=20, middle=120, spread=0, planning=2)


@pytest.mark.parametrize("count", [0, 1, 11])
def test_too_few_plates_teach_nothing_but_their_number(count):
    assert learned([120] * count) == Learned(plates=count)


@given(lengths=ALIKE, odd=st.lists(st.sampled_from([0, 9, 24, 801, 10_000, 90_000, -60]), max_size=5))
def test_forgotten_and_late_presses_move_nothing_and_are_counted(lengths, odd):
    # By hand: the middle of the good ones lies from 100 to 199, so that less than 25 and more than 800 is odd
    # whatever it is; with five odd among seventeen the middle of all that are possible still lies among the good.
    found = learned([*odd, *lengths])

    assert found == Learned(len(lengths), len(odd), 0, found.middle, found.spread, found.planning)
    assert (found.middle, found.planning) == (learned(lengths).middle, learned(lengths).planning)


def test_only_absurd_lengths_leave_nothing():
    assert plausible([0, 5, 50_000]) == []


def test_each_step_is_the_time_between_its_presses():
    found = by_name(plates(20))

    middles = {name: lesson.overall.middle for name, lesson in found.items()}
    assert middles == {"bath": 300, "expose": 200, "develop": 130, "fix": 120, "wash": 4000}
    assert {lesson.overall.plates for lesson in found.values()} == {20}


def test_presses_are_read_in_any_order():
    presses = plates(13)

    assert lessons(presses[::-1]) == lessons(presses)


def test_each_size_is_learned_by_itself_too():
    slow = [
        press for n in range(15) for press in plate(100 + n, 10**7 + 10_000 * n, (300, 200, 200), "whole")
    ]

    found = by_name([*plates(14), *slow, *plate(999, 10**9, size="half")])["develop"]

    assert [(size, each.plates, each.middle) for size, each in found.by_size] == [
        ("half", 1, None),
        ("quarter", 14, 130),
        ("whole", 15, 200),
    ]
    assert (found.overall.plates, found.overall.middle) == (30, 165)


def test_a_step_whose_hands_pressed_for_another_plate_meanwhile_is_left_out():
    # The second plate is poured 40 seconds into the developing of the first.
    pairs = [
        press
        for n in range(12)
        for press in plate(2 * n, 10_000 * n) + plate(2 * n + 1, 10_000 * n + 540, (700,))
    ]

    found = by_name(pairs)

    assert (found["develop"].overall.plates, found["develop"].overall.between) == (0, 12)
    assert (found["expose"].overall.plates, found["expose"].overall.between) == (12, 0)
    # Nobody holds a plate in its bath or wash.
    assert (found["bath"].overall.plates, found["bath"].overall.between) == (24, 0)


def test_other_hands_do_not_count_as_a_wait():
    pairs = [
        press
        for n in range(12)
        for press in plate(2 * n, 10_000 * n) + plate(2 * n + 1, 10_000 * n + 540, (700,), hands=2)
    ]

    assert by_name(pairs)["develop"].overall.between == 0


def test_a_press_for_another_plate_at_the_very_edge_of_a_step_is_no_wait():
    # Developing lasts from second 500 to 630.
    edges = [
        press
        for n in range(12)
        for press in [
            *plate(3 * n, 10_000 * n),
            Press(3 * n + 1, "quarter", "poured", 10_000 * n + 500, 1),
            Press(3 * n + 2, "quarter", "poured", 10_000 * n + 630, 1),
        ]
    ]

    assert by_name(edges)["develop"].overall == by_name(plates(12))["develop"].overall


def test_a_plate_that_was_spoilt_teaches_what_came_before():
    found = by_name([press for n in range(12) for press in plate(n, 10_000 * n, (300, 200))])

    assert {name: lesson.overall.plates for name, lesson in found.items()} == {
        "bath": 12,
        "expose": 12,
        "develop": 0,
        "fix": 0,
        "wash": 0,
    }


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"second": 1.5}, "second: must be a whole number"),
        ({"plate": True}, "plate: must be a whole number"),
        ({"size": ""}, "size: must be a word"),
        ({"stage": None}, "stage: must be a word"),
    ],
)
def test_a_press_that_cannot_be_is_refused(wrong, sentence):
    with pytest.raises(CapacityValueError) as refusal:
        Press(**({"plate": 1, "size": "half", "stage": "fixed", "second": 0} | wrong))

    assert str(refusal.value) == sentence
