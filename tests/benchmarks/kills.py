"""python -m tests.benchmarks.kills [ROUNDS] [SEED]: a process that books and mails is killed at any moment,
again and again.

Each round a child books, takes the deposit, drains, and says so through a pipe after each; somewhere in its second or
third booking it is ended by SIGKILL. A minute later (by the clock that is passed on) the next drain has to make
everything good: no booking that was said to be done is lost, none has a letter missing, no letter is invented, and one
that went out twice has the same Message-ID. The database is the one DATABASE_URL names, migrated and empty.
"""

import json
import multiprocessing
import os
import random
import re
import sys
import time
from collections import Counter
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

ROUNDS = 200
MADE_GOOD = timedelta(seconds=60)
EVERY = timedelta(minutes=10)
MESSAGE_ID = re.compile(rb"^Message-ID: (<[^>]+>)", re.MULTILINE)
BETWEEN = b"-" * 79


def work(told: Any, day_id: int, now: datetime) -> None:
    """What the child does until it is killed: book and mail, telling of each step once it is done."""
    from bookings import drain as due
    from bookings.diary.models import SittingDay
    from tests import builders

    day = SittingDay.objects.select_related("venue", "bench_day").get(pk=day_id)
    opens = day.bench_day.opens_at
    for turn in range(20):
        told.send("begun")
        order = builders.a_paid_order(day, at=opens + turn * timedelta(minutes=15), now=now)
        told.send(order.reference)
        due.drain(now=now)
        told.send("drained")
    told.send("idle")


def killed(day_id: int, now: datetime, chance: random.Random) -> list[str]:
    """Run a child and kill it somewhere after its second booking has begun; return the bookings that it told of."""
    from django.db import connections

    connections.close_all()
    hears, told = multiprocessing.Pipe(duplex=False)
    child = multiprocessing.get_context("fork").Process(target=work, args=(told, day_id, now))
    child.start()
    told.close()
    heard, since = [], time.monotonic()
    while heard.count("begun") < 2:
        heard.append(hears.recv())
    # Somewhere in a booking with its mail, which takes as long as the first one did.
    time.sleep(chance.uniform(0, 1.2 * (time.monotonic() - since)))
    child.kill()
    child.join()
    # What was told before the end is still in the pipe.
    with suppress(EOFError):
        while True:
            heard.append(hears.recv())
    return [word for word in heard if word not in {"begun", "drained", "idle"}]


def mailed() -> Counter[str]:
    """How often each letter was written out whole, by its Message-ID."""
    from django.conf import settings

    files = Path(settings.EMAIL_FILE_PATH).glob("*.log")
    whole = [part for file in files for part in file.read_bytes().split(BETWEEN)[:-1]]
    return Counter(found[1].decode() for part in whole if (found := MESSAGE_ID.search(part)))


def faults(acknowledged: list[str], now: datetime) -> dict[str, list[str]]:
    """What is wrong once everything had its minute; empty lists when nothing is."""
    from bookings.orders.models import Order
    from bookings.outbox.models import Notice, NoticeKind
    from bookings.payments.models import Payment

    paid = {order.reference: order for order in Order.objects.filter(payments__isnull=False).distinct()}
    letters = Notice.objects.filter(order__payments__isnull=False)
    confirmed = Counter(
        letters.filter(kind=NoticeKind.CONFIRMED, sent_at__lte=now).values_list("order", flat=True)
    )
    known = set(Notice.objects.values_list("message_id", flat=True))
    sent = set(Notice.objects.exclude(sent_at=None).values_list("message_id", flat=True))
    out = mailed()
    return {
        "lost": sorted(set(acknowledged) - set(paid)),
        "paid twice": [
            ref for ref, order in paid.items() if Payment.objects.filter(order=order).count() != 1
        ],
        "without its letter": [ref for ref, order in paid.items() if confirmed[order.pk] != 1],
        "said to be sent and not out": sorted(sent - set(out)),
        "invented": sorted(set(out) - known),
        "still in hand": list(
            Notice.objects.filter(claimed_until__gt=now).values_list("message_id", flat=True)
        ),
    }


def rounds(count: int, seed: int) -> dict[str, Any]:
    """Play so many rounds; return what went wrong, and what was measured."""
    from bookings import drain as due
    from bookings.orders.models import Order
    from tests import builders
    from tests.builders import NOW

    # What pages show beforehand has nothing to do with letters, and takes the solver's time.
    due.starts.work_out = lambda **_: 0
    chance, acknowledged = random.Random(seed), []
    bench = builders.a_bench(operators=9, tank_places=9, wash_places=60, sitters_at_once=9)
    wrong: dict[str, list[str]] = {}
    made_good = 0
    for number in range(count):
        now = NOW + number * EVERY
        day = builders.a_day(bench=bench, on=builders.SATURDAY + timedelta(days=number))
        acknowledged += killed(day.pk, now, chance)
        made_good += due.drain(now=now + MADE_GOOD)
        for fault, names in faults(acknowledged, now + MADE_GOOD).items():
            wrong.setdefault(fault, []).extend(names)
    out = mailed()
    return {
        "rounds": count,
        "wrong": {fault: sorted(set(names)) for fault, names in wrong.items() if names},
        "acknowledged": len(acknowledged),
        "bookings": Order.objects.filter(payments__isnull=False).distinct().count(),
        "letters": len(out),
        "made good": made_good,
        "sent again under the same Message-ID": sum(out.values()) - len(out),
    }


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()
    count, seed = [*map(int, sys.argv[1:]), *(ROUNDS, 1)[len(sys.argv) - 1 :]]
    json.dump(rounds(count, seed), sys.stdout, indent=2)


if __name__ == "__main__":
    main()
