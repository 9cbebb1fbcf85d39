"""Quoted = charged = paid = invoiced, to the cent: `python -m tests.benchmarks.orders [PURE]
[THROUGH_THE_DATABASE] [SEED]`.

10,000 random orders by the pure rules (Hypothesis), then as many through services and a SQLite file of their own, each
looked at, held, placed, paid and invoiced, in studios of 48 orders with a price list each. That takes half an hour:
two processes with a seed each take half of it. Prints how many there were and the processor's time; a difference fails.
"""

import random
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.studio import scratch_studio

PURE, STORED = 10_000, 10_000
SEED = 20261126
DAYS = 3  # of each studio


def main(pure: int = PURE, stored: int = STORED, seed: int = SEED) -> None:
    with scratch_studio():
        sys.stdout.write(by_the_rules(pure))
        sys.stdout.write(through_the_database(stored, seed))


def by_the_rules(orders: int) -> str:
    from hypothesis import HealthCheck, given, settings

    from tests.bookings.orders.strategies import books, discounts, terms, wishes
    from tests.bookings.orders.test_sums import assert_every_sum_is_one

    seen = 0

    @settings(max_examples=orders, deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow])
    @given(books, wishes, discounts, terms)
    def every_order(book, wish, discount, agreed):
        nonlocal seen
        assert_every_sum_is_one(book, wish, discount, agreed)
        seen += 1

    begun = time.process_time()
    every_order()
    return f"{seen} orders by the rules, no cent apart, {time.process_time() - begun:.0f} s\n"


def through_the_database(orders: int, seed: int) -> str:
    chance = random.Random(seed)
    begun = time.process_time()
    sums: list[tuple[int, ...]] = []
    studios = empty_studios()
    while len(sums) < orders:
        next(studios)
        sums += sums_of_a_studio(chance)
    apart = [each for each in sums if len(set(each)) > 1]
    assert not apart, apart
    together, took = sum(quoted for quoted, *_ in sums), time.process_time() - begun
    return (
        f"{len(sums)} orders through the database, {together / 100:.2f} in all, no cent apart, {took:.0f} s\n"
    )


def empty_studios() -> Iterator[None]:
    """One after another: with thousands of plates ahead, every further date to promise would take longer."""
    from django.db import connection

    rows = Path(connection.settings_dict["NAME"])
    connection.close()
    empty = rows.read_bytes()
    while True:
        yield
        connection.close()
        rows.write_bytes(empty)


def sums_of_a_studio(chance: random.Random) -> list[tuple[int, ...]]:
    """Every order of three full days, by a price list of its own."""
    from tests.bookings.orders.random_orders import A_DAY, days_for, offered_in_turn, price_list, sums_of

    price_list(chance)
    days = offered_in_turn(days_for(DAYS * A_DAY))
    return [sums_of(day, number, chance) for day in days for number in range(A_DAY)]


if __name__ == "__main__":
    main(*(int(number) for number in sys.argv[1:4]))
