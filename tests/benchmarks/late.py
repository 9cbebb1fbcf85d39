"""How long a late day takes to be worked out anew, and what it gains: `python -m tests.benchmarks.late`.

Random days of the tests, twenty requests each, behind their plan by up to forty minutes with a fifth of the wet plates
spoilt; and one day sold to the last place. Lateness is beyond the promised window, in minutes.
"""

from statistics import median
from time import perf_counter

from plates.capacity import Bench, Booked, Sitting
from plates.capacity.exact.replan import lay_out
from plates.capacity.late.begun import begun_work
from plates.capacity.late.day import late_day
from plates.capacity.late.forward import played_forward
from plates.capacity.late.progress import LateDay, Moment, Work
from tests.benchmarks.gate_one import show
from tests.plates.capacity.days import DAY, QUARTER
from tests.plates.capacity.late.days import a_bad_day, under_way

DAYS = 40
APART = 18


def a_full_day(bench: Bench, now: int, behind: int) -> list[Work]:
    sittings = [Sitting(start, (QUARTER,)) for start in range(0, 460, APART)]
    plans = lay_out(bench, DAY, sittings, seconds=8).plans
    return under_way([Booked(*each) for each in zip(sittings, plans, strict=False)], now, behind)


def measured(bench: Bench, works: list[Work], now: int) -> tuple[float, LateDay, LateDay]:
    """Seconds, the answer, and the stored plan played forward."""
    begins = perf_counter()
    late = late_day(bench, DAY, works, now)
    seconds = perf_counter() - begins
    at = Moment.of(bench, DAY, works, now)
    begun = begun_work(bench, DAY, works, at)
    forward = LateDay(
        played_forward(bench, DAY, works, begun.sittings, at), begun.lost, "played forward", proven=False
    )
    return seconds, late, forward


def told(name: str, runs: list[tuple[float, LateDay, LateDay]]) -> None:
    seconds = sorted(run[0] for run in runs)
    searched = [run for run in runs if run[1].means == "searched"]
    show(
        f"{name}: {len(runs)} days, {median(seconds):.2f} s in the middle, {seconds[-1]:.2f} s at most;"
        f" proven {sum(run[1].proven for run in runs)}; searched {len(searched)},"
        f" worst lateness {sum(run[2].worst for run in searched)} -> {sum(run[1].worst for run in searched)},"
        f" total {sum(run[2].total for run in searched)} -> {sum(run[1].total for run in searched)}"
    )


def main() -> None:
    bench = Bench()
    told("random days", [measured(bench, *a_bad_day(seed, bench)) for seed in range(DAYS)])
    full = [(now, behind) for now in (30, 100, 200, 300) for behind in (5, 20, 45)]
    told("full day", [measured(bench, a_full_day(bench, now, behind), now) for now, behind in full])


if __name__ == "__main__":
    main()
