"""How long it takes to play a day of twenty sittings 5,000 times, beside a plain loop, and what spacing costs in waits.

Run from the top: `python -m tests.bench.risk`. The plain loop (tests/plates/capacity/plain_play.py) follows the same
rules with the same luck, one day at a time; it plays fewer days, and its time is scaled up.
"""

from time import perf_counter

from plates.capacity import Bench, Booked, Day, Sitting, Size
from plates.capacity.exact import lay_out
from plates.capacity.risk import DAYS, SEED, risk
from plates.capacity.risk_luck import drawn, keys_of
from plates.capacity.risk_ordering import order_of
from plates.capacity.risk_play import play
from plates.capacity.risk_values import Chances
from plates.capacity.spacing import spacing
from tests.bench.gate_one import show
from tests.plates.capacity.plain_play import PlainDay

QUARTER = Size("quarter")
DAY = Day(0, 480, 555)
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


if __name__ == "__main__":
    speed()
    waits()
    suggested()
