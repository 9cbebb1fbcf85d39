"""Refusals in words. The wording is the project's own."""

import pytest

from plates.capacity import Refusal, sentence
from plates.capacity.refusals import explain


def clock(minute):
    return f"{10 + minute // 60}:{minute % 60:02d}"


def refused(why, begin=15, end=33, nearest=(45, 60)):
    return Refusal(15, why, begin, end, None, nearest)


SENTENCES = [
    (
        refused("operator"),
        "The photographer's hands are taken from 10:15 to 10:33. 10:45 and 11:00 are free.",
    ),
    (refused("tank", nearest=(45,)), "The silver bath is taken from 10:15 to 10:33. 10:45 is free."),
    (refused("wash", nearest=()), "The wash is full from 10:15 to 10:33. No other time is free on that day."),
    (refused("sitters"), "The room is full of sitters from 10:15 to 10:33. 10:45 and 11:00 are free."),
    (
        refused("rest", nearest=(45,)),
        "The silver bath has to rest between 10:15 and 10:33. 10:45 is free.",
    ),
    (
        refused("closing", 480, 483, (0, 15, 30)),
        "The sitting would last until 18:03, and the studio closes at 18:00. 10:00, 10:15 and 10:30 are free.",
    ),
    (
        refused("racks", 555, 560, ()),
        "The plates would be washed at 19:20, and the racks are emptied by 19:15. No other time is free on that day.",
    ),
    (refused("opening", -15, 0), "The studio opens at 10:00. 10:45 and 11:00 are free."),
    (refused("size"), "The bench cannot take a plate of that size. 10:45 and 11:00 are free."),
    (
        refused("budget:collodion", nearest=()),
        "There is not enough collodion for these plates on that day. No other time is free on that day.",
    ),
    (
        refused("waiting", 60, 70),
        "With this sitting too, whoever comes at 11:00 would too often have to wait long. 10:45 and 11:00 are free.",
    ),
    (
        refused("undecided", 15, 15, (45,)),
        "Whether the bench can still make these plates at 10:15 could not be worked out in time. 10:45 is free.",
    ),
    (refused("grid"), "No sitting starts at 10:15. 10:45 and 11:00 are free."),
]


@pytest.mark.parametrize(("refusal", "words"), SENTENCES, ids=[each[0].why for each in SENTENCES])
def test_every_reason_has_its_sentence(refusal, words):
    assert sentence(refusal, clock) == words


def test_no_reason_is_without_a_sentence():
    assert {refusal.why.partition(":")[0] for refusal, _ in SENTENCES} == set(explain.SENTENCES)


def test_a_budget_with_braces_in_its_name_is_written_as_it_is():
    assert "enough {begin} for" in sentence(refused("budget:{begin}"), clock)
