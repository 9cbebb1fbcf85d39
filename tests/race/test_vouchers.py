"""Sixteen processes pay with one voucher at once: exactly its worth is taken, to the cent."""

import pytest

from tests.race.vouchers import EACH, WORTH
from tests.race.worker import CONTENDERS


def assert_exactly_its_worth_was_taken(report):
    assert sum(report["stored"]["taken"]) == WORTH
    # What was stored is what was answered, and nobody was answered twice for one payment.
    answered = [each["answer"] for turns in report["outcomes"] for each in turns if each["error"] is None]
    assert sorted(answered) == sorted(report["stored"]["taken"])


def test_one_voucher_pays_for_sixteen_orders_at_once_what_it_is_worth(rows, run_race):
    report = run_race(rows, "one_voucher")

    assert_exactly_its_worth_was_taken(report)
    whole, rest = divmod(WORTH, EACH)
    assert sorted(report["stored"]["taken"]) == [rest] + [EACH] * whole
    refused = [each for turns in report["outcomes"] for each in turns if each["error"]]
    assert {each["error"] for each in refused} == {"VoucherRefused"}
    assert {each["words"] for each in refused} == {
        "At most €10.00 can be taken from this voucher now.",
        "Nothing is left on this voucher.",
    }
    assert len(refused) == 2 * CONTENDERS - whole - 1


@pytest.mark.postgres
def test_without_its_lock_more_is_taken_than_it_is_worth_on_postgresql(postgres_rows, run_race):
    report = run_race(postgres_rows, "one_voucher", "without_the_voucher_lock")

    assert sum(report["stored"]["taken"]) > WORTH
    with pytest.raises(AssertionError):
        assert_exactly_its_worth_was_taken(report)
