"""What is at hand that can hurt, and fixers by area and by clearing time."""

from datetime import timedelta

import pytest

from plates.store.selectors.bottles import batches, on_hand
from plates.store.selectors.safety import at_hand, fire, fixers
from plates.store.selectors.supplies import figures
from plates.store.services.waste import note_clearing, set_fire_limit
from tests.builders import NOW
from tests.builders import store as stores
from tests.builders.bottles import a_batch

pytestmark = pytest.mark.django_db


def received(supply, amount):
    supply.events.create(kind="received", amount=amount, at=NOW, on=NOW.date(), label="Can 1")


def keys(found):
    return {each.key for each in found}


def test_the_cautions_are_those_of_what_is_at_hand():
    stores.a_bath()
    a_batch(100)

    assert {"silver", "ether", "flame", "waste", "always"} <= keys(at_hand().cautions)
    assert "cyanide" not in keys(at_hand().cautions)


def test_what_is_used_up_or_ended_warns_of_nothing():
    stores.a_supply("Ether")
    a_batch(100, ended_at=NOW, ended_why="used_up")

    assert keys(at_hand().cautions) == {"always"}


def test_what_burns_is_summed_beside_the_studios_own_figure():
    received(stores.a_supply("Ether"), 750_000)
    received(stores.a_supply("Iodine", unit="mg", substance="iodine"), 50_000)
    a_batch(250)
    stores.a_bath()

    assert (fire(room=figures()).held_ml, fire(room=figures()).too_much) == (1000, False)
    assert fire(room=set_fire_limit(millilitres=1000)).too_much is False
    assert fire(room=set_fire_limit(millilitres=999)).too_much is True


def clears(fixer, seconds, minutes):
    note_clearing(batch_id=fixer.pk, seconds=seconds, operator=None, now=NOW + timedelta(minutes=minutes))


def test_a_fixer_is_good_for_its_printed_area():
    # Darkroom Cookbook, 3rd edition, p. 108 (B): 10 000 cm² a litre.
    stores.a_batch()

    [found] = fixers(now=NOW)
    assert (found.left_cm2, found.sentence) == (10_000, "good for 10000 cm² of plate more.")


def test_a_fixer_that_clears_in_twice_the_time_is_spent_whatever_its_area():
    # The same page: exhausted when it takes twice as long to clear as it did when fresh.
    fixer = stores.a_batch()
    clears(fixer, 30, 0), clears(fixer, 59, 1)
    assert fixers(now=NOW)[0].sentence.startswith("good for")

    clears(fixer, 60, 2)

    assert fixers(now=NOW)[0].sentence == (
        "A plate clears in 60 s, twice as long as when it was fresh: make new fixer."
    )
    found = batches(kinds=["fixer"], now=NOW)["fixer"]
    assert [each.left for each in on_hand(kind="fixer", found=found, ul_a_cm2=100)] == [0]
