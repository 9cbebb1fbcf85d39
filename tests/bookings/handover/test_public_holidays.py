"""Public holidays as the library knows them. Those of Portugal: Código do Trabalho, article 234 (from memory)."""

from datetime import date

import pytest

from bookings.handover.public_holidays import public_holidays

BY_LAW = {(1, 1), (4, 25), (5, 1), (6, 10), (8, 15), (10, 5), (11, 1), (12, 1), (12, 8), (12, 25)}


def test_the_fixed_holidays_of_portugal_are_there_each_with_a_name():
    found = public_holidays("pt", 2026, "en_GB")

    assert {(on.month, on.day) for on in found} > BY_LAW
    assert found[date(2026, 12, 25)] == "Christmas Day"


def test_those_that_move_with_easter_move():
    """Easter Sunday was on 5 April 2026 and is on 28 March 2027 (tables of Easter, from memory)."""
    assert date(2026, 4, 3) in public_holidays("PT", 2026, "en_GB")
    assert date(2027, 3, 26) in public_holidays("PT", 2027, "en_GB")


def test_they_are_named_in_the_language_of_the_studio_where_it_is_known():
    assert public_holidays("DE", 2026, "de_DE")[date(2026, 1, 1)] == "Neujahr"


@pytest.mark.parametrize("country", ["XX", "", "nowhere"])
def test_of_a_country_that_is_not_known_there_are_none(country):
    assert public_holidays(country, 2026, "en_GB") == {}
