"""The verifier's rule for the rest of the silver bath, read off the plans alone."""

from collections.abc import Iterator, Sequence

from plates.capacity.problem.bench import Bench
from plates.capacity.problem.timeline import Booked
from plates.capacity.verify.sitting import Fault


def rest_faults(bench: Bench, booked: Sequence[Booked]) -> Iterator[Fault]:
    """One fault for each plate that goes in when the bath should rest: after so many without a long enough pause."""
    if bench.rest is None:
        return
    plates = sorted((plate.tank_in, plate.tank_out) for each in booked for plate in each.plan.plates)
    since, empty_from = 0, None
    for tank_in, tank_out in plates:
        rested = empty_from is not None and tank_in >= empty_from + bench.rest.minutes
        since = 1 if rested else since + 1
        if since > bench.rest.plates and empty_from is not None:
            until = empty_from + bench.rest.minutes
            text = (
                f"All sittings: the bath takes plate {since} without a rest at minute {tank_in},"
                f" after {bench.rest.plates} it rests {bench.rest.minutes} minutes, until {until}."
            )
            yield Fault("rest", tank_in, until, text)
        empty_from = tank_out if empty_from is None else max(empty_from, tank_out)
