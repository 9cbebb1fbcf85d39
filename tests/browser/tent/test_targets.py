"""Targets, gaps and digits of the tent, for wet gloves and red light."""

from itertools import pairwise

import pytest

from tests.browser import measures
from tests.browser.tent.steps import step

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_targets_are_72_px_and_digits_can_be_read_at_a_metre(tent, clock):
    page = tent().page
    step(page, clock, "Pour")
    page.evaluate(measures.OPEN_ALL)

    assert page.evaluate(measures.LOW_TARGETS, 72) == []
    # Three units of the eye's twenty: 48 px is quality-bars s.3.6.
    assert (
        page.locator("#clock-digits").evaluate("digits => parseFloat(getComputedStyle(digits).fontSize)")
        >= 48
    )
    assert page.evaluate(measures.OVERHANG) <= 0


def test_gaps_between_targets_are_12_px(tent, clock):
    page = tent().page
    step(page, clock, "Pour")
    page.evaluate(measures.OPEN_ALL)

    tops = page.evaluate(
        "() => [...document.querySelectorAll('button, summary, #strip a, .tools a')]"
        ".filter(each => each.checkVisibility()).map(each => each.getBoundingClientRect())"
        ".map(box => [box.top, box.bottom]).sort((one, other) => one[0] - other[0])"
    )

    assert len(tops) > 10
    assert min(below[0] - above[1] for above, below in pairwise(tops)) >= 12
