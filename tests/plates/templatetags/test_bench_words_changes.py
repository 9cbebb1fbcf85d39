"""Every change has its words."""

from plates.capacity import Bench
from plates.capacity.what_if import changes
from plates.templatetags.bench_words import CHANGES, change_words


def test_every_change_of_the_engine_is_said_in_the_words_of_the_studio():
    assert [change_words(change.name) for change in changes(Bench(), 0)] == list(CHANGES.values())
