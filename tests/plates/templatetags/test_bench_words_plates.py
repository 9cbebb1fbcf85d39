"""Seconds as they were noted, without places that nobody noted."""

from decimal import Decimal

import pytest

from plates.templatetags.bench_words import seconds


@pytest.mark.parametrize(
    ("value", "written"),
    [(Decimal("4.500"), "4.5 s"), (Decimal("100.000"), "100 s"), (Decimal("0.001"), "0.001 s"), (None, "")],
)
def test_seconds_are_written_plainly(value, written):
    assert seconds(value) == written
