"""Two that meet at one moment: the second sees what the first did, whichever of them it is.

Which rows hold each pair apart on PostgreSQL is told in the services. On SQLite one write lock holds all apart,
whatever they do: the races of sixteen show that there.
"""

import pytest

pytestmark = pytest.mark.postgres


@pytest.fixture
def met(postgres_rows, run_race):
    """A function that lets a pair meet; it returns the first's and the second's outcome, and what is stored."""

    def meet(scene):
        report = run_race(postgres_rows, scene)
        (first, committed), (_, second) = report["outcomes"]
        assert committed["error"] is None
        assert committed["answer"] is True, "the second did not wait for the first"
        return first, second, report["stored"]

    return meet


def test_no_plate_is_poured_for_a_place_that_is_just_being_given_back(met):
    _, second, stored = met("release_then_pour")

    assert second["error"] == "JobReleased"
    assert (stored["released"], stored["plates"]) == (True, 0)


def test_a_place_is_not_given_back_while_its_plate_is_being_poured(met):
    _, second, stored = met("pour_then_release")

    assert second["error"] == "BenchPromised"
    assert (stored["released"], stored["plates"]) == (False, 1)


def test_a_sitting_that_is_confirmed_while_it_is_moved_is_confirmed_where_it_went(met):
    _, second, stored = met("move_then_confirm")

    assert second["error"] is None
    assert (stored["day"], stored["starts_at"]) == (1, "2026-11-29T12:00:00+00:00")
    assert (stored["confirmed"], stored["problems"]) == (True, [])


def test_of_two_moves_of_one_sitting_the_later_stands_and_every_day_is_counted(met):
    _, second, stored = met("move_then_move")

    assert second["error"] is None
    assert (stored["day"], stored["starts_at"]) == (0, "2026-11-28T12:00:00+00:00")
    # Reserved, moved away, moved back; and on the other day moved to, moved away.
    assert stored["versions"] == [3, 2]
    assert stored["problems"] == []


def test_a_hold_that_just_got_a_name_is_not_dropped(met):
    _, second, stored = met("place_then_drop")

    assert second["error"] is None
    assert (stored["placed"], stored["released"]) == (True, False)


def test_a_hold_that_is_just_being_dropped_gets_no_name(met):
    _, second, stored = met("drop_then_place")

    assert second["error"] == "JobReleased"
    assert (stored["placed"], stored["released"]) == (False, True)


@pytest.mark.parametrize(("scene", "confirmed"), [("pay_then_cancel", True), ("cancel_then_pay", False)])
def test_money_that_meets_a_cancellation_is_kept_and_the_place_is_given_back(met, scene, confirmed):
    first, second, stored = met(scene)

    assert (first["error"], second["error"]) == (None, None)
    assert stored["paid"] == [4250]
    assert (stored["cancelled"], stored["released"], stored["confirmed"]) == (True, True, confirmed)


def test_an_invoice_that_meets_a_payment_counts_it_if_it_came_first(met):
    _, second, _ = met("pay_then_invoice")

    assert second["answer"] == [4250, 4250]


def test_an_invoice_that_meets_a_payment_leaves_it_out_if_it_came_after(met):
    first, second, stored = met("invoice_then_pay")

    assert (first["answer"], second["error"]) == ([0, 8500], None)
    assert stored["paid"] == [4250]


def test_one_reference_told_for_two_orders_at_once_is_one_payment(met):
    _, second, stored = met("pay_then_other_pays")

    assert second["error"] == "ReferenceTaken"
    assert second["words"].startswith("The ledger already holds a different payment under 'till 1'.")
    assert stored["paid"] == [4250]


def test_the_last_use_of_a_code_goes_to_one_of_two_who_hold_places_on_different_days(met):
    first, second, stored = met("last_use_then_last_use")

    assert (first["error"], second["error"]) == (None, "DiscountRefused")
    assert second["words"].startswith("The code HARBOUR10 has been used as often as it may be.")
    assert stored == 1
