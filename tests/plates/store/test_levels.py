"""What is left is the newest count, with what came and less what went after it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.store.levels import Level, level


@pytest.mark.parametrize(
    ("moves", "left"),
    [
        ([], Level(100)),
        ([("taken", 30), ("added", 5)], Level(75)),
        ([("taken", 30), ("counted", 60), ("used", 10)], Level(50)),
        ([("counted", 0), ("received", 20), ("discarded", 5)], Level(15)),
        ([("opened", 0), ("tested", 0)], Level(100)),
        ([("taken", 130)], Level(0, missing=30)),
        ([("taken", 130), ("counted", 10)], Level(10)),
    ],
    ids=["nothing", "moves", "count", "received", "seen", "more than there was", "count puts right"],
)
def test_the_newest_count_is_what_counts(moves, left):
    assert level(100, moves) == left


@given(st.lists(st.tuples(st.sampled_from(["taken", "added", "counted"]), st.integers(0, 10**6))))
def test_a_level_is_never_below_nothing_and_never_both_left_and_missing(moves):
    found = level(0, moves)

    assert found.left >= 0 <= found.missing
    assert not (found.left and found.missing)
