"""How lengths are read."""

import pytest

from plates.capacity.learning import STEPS
from plates.templatetags.bench_words import as_minutes, step_words


@pytest.mark.parametrize(
    ("seconds", "words"), [(0, "0:00"), (5, "0:05"), (59.6, "1:00"), (125, "2:05"), (3900.4, "65:00")]
)
def test_seconds_are_read_as_minutes(seconds, words):
    assert as_minutes(seconds) == words


def test_every_step_has_its_words():
    assert all(step_words(step.name) for step in STEPS)
