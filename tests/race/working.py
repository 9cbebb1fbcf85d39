"""Races for numbers, letters and payments."""

import re
from datetime import timedelta
from functools import partial
from pathlib import Path

from django.conf import settings
from django.db import transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from bookings import drain as due
from bookings.cards.models import CardNotice
from bookings.orders import links
from bookings.outbox.models import Notice
from bookings.payments.models import Payment
from plates.bench.models import Plate, PlateSlot
from plates.ledger.services import events as ledger
from tests import builders
from tests.bookings.cards.worlds import a_page, paid, take
from tests.builders import NOW
from tests.race.layouts import World, letters_by_kind, many_orders
from tests.race.worker import CONTENDERS, Scene

EACH = 3
TEN_MINUTES = timedelta(minutes=10)


class GivenUp(Exception):
    """What rolls a transaction back."""


def rolled_back(act):
    with transaction.atomic():
        act()
        raise GivenUp


def attempts(acts, number):
    """Each act, and every fifth of all contenders' acts inside a transaction that is rolled back."""
    return [
        partial(rolled_back, act) if (number * EACH + turn) % 5 == 0 else act for turn, act in enumerate(acts)
    ]


def _orders_to_make() -> World:
    """The plates of one order, of which all want the first, then those of an order for each contender."""
    many_orders(CONTENDERS + 1, placed=builders.a_placed_order, sizes=("quarter",) * EACH)
    return {"slots": list(PlateSlot.objects.order_by("pk").values_list("pk", flat=True))}


def _pour(slot_id: int) -> int:
    return ledger.pour(slot_id=slot_id, operator=None, now=NOW).number


def _pouring(world: World, number: int):
    own = world["slots"][EACH * (number + 1) : EACH * (number + 2)]
    return [partial(_pour, world["slots"][0]), *attempts([partial(_pour, pk) for pk in own], number)]


def _letters() -> World:
    many_orders(8, placed=builders.a_paid_order)
    return {"message_ids": list(Notice.objects.filter(kind="confirmed").values_list("message_id", flat=True))}


def _drain(number: int) -> int:
    # A letter box for each process: what two write into one file at once could not be counted.
    settings.EMAIL_FILE_PATH = Path(settings.DATA_DIR) / f"letters-{number}"
    return due.drain(now=NOW + TEN_MINUTES)


def _letters_sent(world: World) -> World:
    files = Path(settings.DATA_DIR).glob("letters-*/*")
    found = [
        each for file in files for each in re.findall(r"^Message-ID: (\S+)", file.read_text(), re.MULTILINE)
    ]
    notices = Notice.objects.filter(sent_at__isnull=False)
    return {
        "message_ids": found,
        "sent": notices.count(),
        "claimed": Notice.objects.exclude(claimed_until=None).count(),
    }


def _practice_order() -> World:
    """An order for a day that lies ahead of the real clock, which the page goes by."""
    now = timezone.now()
    day = builders.a_day(on=now.date() + timedelta(days=7))
    order = builders.a_placed_order(day, now=now)
    return {"page": reverse("practice_card", args=[links.checkout_token(order)])}


def _pay_by_practice_card(page: str) -> int:
    return Client(headers={"host": "127.0.0.1"}).post(page).status_code


def _practice_money(world: World) -> World:
    return {"amounts": list(Payment.objects.values_list("amount", flat=True)), "letters": letters_by_kind()}


def _card_page() -> World:
    """An order whose client was sent to a page of the card service."""
    order = builders.a_placed_order(builders.a_day())
    a_page(order)
    return {}


def _told_by_card_service(number: int) -> str:
    # Every fourth is another message about the same payment.
    return take(paid(event=f"evt_{number % 4}"))


def _card_money(world: World) -> World:
    outcomes = sorted(CardNotice.objects.values_list("outcome", flat=True))
    amounts = list(Payment.objects.values_list("amount", flat=True))
    return {"amounts": amounts, "outcomes": outcomes, "letters": letters_by_kind()}


SCENES = {
    "card_messages": Scene(
        _card_page, lambda world, number: [partial(_told_by_card_service, number)], _card_money
    ),
    "pouring": Scene(
        _orders_to_make,
        _pouring,
        lambda world: {"numbers": list(Plate.objects.order_by("number").values_list("number", flat=True))},
    ),
    "letters": Scene(_letters, lambda world, number: [partial(_drain, number)], _letters_sent),
    "practice_card": Scene(
        _practice_order, lambda world, _: [partial(_pay_by_practice_card, world["page"])], _practice_money
    ),
}
