"""How long it takes to play a day of twenty sittings 5,000 times, beside a plain loop, and what spacing costs in waits.

Run from the top: `python -m tests.benchmarks.risk`. The plain loop
(tests/plates/capacity/risk/plain_play.py) follows the same
rules with the same luck, one day at a time; it plays fewer days, and its time is scaled up. It is
written to be read, not for speed.
"""

from itertools import pairwise
from time import perf_counter

from plates.capacity import Bench, Booked, Sitting
from plates.capacity.exact.replan import lay_out
from plates.capacity.risk.assess import DAYS, SEED, risk
from plates.capacity.risk.draws import drawn, keys_of
from plates.capacity.risk.ordering import order_of
from plates.capacity.risk.simulate import play
from plates.capacity.risk.spacing import spacing
from plates.capacity.risk.values import Chances
from tests.benchmarks.gate_one import show
from tests.plates.capacity.days import DAY, QUARTER
from tests.plates.capacity.risk.days import filled, with_one_more
from tests.plates.capacity.risk.plain_play import PlainDay

PLAIN_DAYS = 100


def best(work, times=7):
    """The shortest of some runs in milliseconds: other work on the machine only ever adds."""
    took = []
    for _ in range(times):
        begin = perf_counter()
        work()
        took.append(1000 * (perf_counter() - begin))
    return min(took)


def evenly(gap, plates=1):
    sittings = [Sitting(start, (QUARTER,) * plates) for start in range(0, 463, gap)][:20]
    return [Booked(*each) for each in zip(sittings, lay_out(Bench(), DAY, sittings).plans, strict=True)]


def speed():
    booked, chances = evenly(24), Chances()
    whole = best(lambda: risk(Bench(), DAY, booked, chances))
    luck = drawn(Bench().timings, booked, keys_of(booked, 0), chances, DAYS, SEED)
    order = order_of(Bench(), booked)
    played = best(lambda: play(Bench(), 0, order, luck))

    def plain():
        for day in range(PLAIN_DAYS):
            PlainDay(Bench(), 0, order, luck, day).play()

    loop = best(plain, 3) * DAYS / PLAIN_DAYS
    show(f"{len(booked)} sittings, {DAYS} days: {whole:.0f} ms in all, of which {played:.0f} ms are playing")
    show(f"a plain loop plays them in {loop:.0f} ms: {loop / played:.0f} times as long")


def waits():
    show("gap  P(wait > 10) of the worst  upper   longest mean wait  late close  wet window  racks")
    for gap in (18, 20, 22, 24, 26, 28, 30):
        found = risk(Bench(), DAY, evenly(gap), Chances())
        worst = max(found.sitters, key=lambda each: each.chance)
        mean = max(each.mean_wait for each in found.sitters)
        show(f"{gap:3}  {worst.chance:26.3f}  {worst.upper:5.3f}  {mean:18.1f}  {found.late_close.chance:10.3f}"
             f"  {found.wet.chance:10.3f}  {found.racks.chance:5.3f}")  # fmt: skip


def suggested():
    for hands in (1, 2):
        for plates in (1, 2, 3):
            bench = Bench(operators=hands, tank_places=hands, wash_places=10)
            begin = perf_counter()
            found = spacing(bench, DAY, (QUARTER,) * plates, Chances(chance_limit=0.1))
            took = perf_counter() - begin
            show(f"{hands} pair of hands, {plates} plates each: every {found.gap} minutes,"
                 f" {len(found.booked)} sittings ({took:.1f} s)")  # fmt: skip


def fall(before, after):
    """By how much one of the sitters of the first day waits long less often on the second."""
    return max(own.chance - other.chance for own, other in zip(before.sitters, after.sitters, strict=False))


def noise():
    """What gives way to the order of the turns can make somebody wait less although more goes wrong."""
    days = [(Bench(operators=1 + seed % 2), filled(seed, 1 + seed % 2)) for seed in range(20)]
    for name, values in (
        ("retake", (0, 0.05, 0.15, 0.4, 0.8)),
        ("no_show", (0.5, 0.2, 0.05, 0)),
        ("spread", (0, 0.1, 0.25, 0.5, 1)),
        ("late_sd", (0, 2, 4, 8, 16)),
    ):
        played = [
            [risk(bench, DAY, booked, Chances(**{name: value})) for value in values] for bench, booked in days
        ]
        most = max(fall(*pair) for each in played for pair in pairwise(each))
        show(f"more {name}: a chance falls by {max(0.0, most):.4f} at most")
    falls = [each for day in days for each in falls_of_one_more(*day)]
    fewer = sum(each > 0 for each in falls)
    show(f"one more sitting: {fewer} of {len(falls)} chances fall, by {max(falls):.4f} at most")


def falls_of_one_more(bench, booked):
    """By how much each chance falls when one more sitting is set into the day, for each start there is."""
    before = risk(bench, DAY, booked, Chances()).sitters
    for start in range(0, 480, 45):
        more = with_one_more(bench, booked, Sitting(start, (QUARTER,)))
        if more:
            after = risk(bench, DAY, more, Chances()).sitters
            yield from (own.chance - other.chance for own, other in zip(before, after, strict=False))


if __name__ == "__main__":
    speed()
    noise()
    waits()
    suggested()
