"""Invoices of those who were forgotten: no page of daily work names them, and who opens one says why.

Outside: GDPR Art. 17(3)(b) (what the law asks to be kept stays), as read in quality-bars s.2.12.
"""

from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from bookings.clients import services as own_data
from bookings.invoices.services import issuing as invoices
from plates.bench.models import BenchDay, Stage
from tests import builders
from tests.bookings.clients.canaries import CANARY, LATER, MAIL, canary
from tests.builders import NOW
from tests.reading import papers

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def clock():
    with time_machine.travel(NOW, tick=False) as moved:
        yield moved


@pytest.fixture
def photographer(client, clock):
    clock.move_to(LATER)
    client.force_login(builders.an_operator())
    return client


PAGES = [
    ("studio:orders", {}),
    ("studio:orders", {"q": CANARY}),
    ("studio:books", {}),
    ("studio:open_invoices", {}),
    ("studio:to_invoice", {}),
    ("studio:numbers", {"year": "2026"}),
    ("studio:statements", {"q": CANARY}),
    ("studio:documents_file", {"since": "2026-01-01", "until": "2026-12-31"}),
    ("studio:payments_file", {"since": "2026-01-01", "until": "2026-12-31"}),
    ("studio:kept_by_law", {}),
    ("studio:vouchers", {}),
]


@pytest.fixture
def shut_away():
    """The invoice of somebody who was forgotten since."""
    order = builders.a_paid_order(builders.a_day(), amount=8500, name=canary("name"), email=MAIL)
    builders.made_plates(order, stage=Stage.HANDED_OVER)
    invoice = invoices.issue(order_id=order.pk, now=LATER)
    own_data.erase(client_id=order.client_id, now=LATER)
    return invoice


def test_no_page_of_daily_work_names_who_was_forgotten(photographer, shut_away):
    order = reverse("studio:order", args=[shut_away.order.reference])
    addresses = [(reverse(name), query) for name, query in PAGES] + [(order, {})]

    said = [(address, photographer.get(address, query)) for address, query in addresses]

    assert {answer.status_code for _, answer in said} == {200}
    shown = [
        address
        for address, answer in said
        if f"{CANARY} name" in b"".join(answer).decode().replace(f"“{CANARY}", "").casefold()
    ]
    assert shown == []


@pytest.mark.parametrize(
    ("name", "method"),
    [
        ("invoice", "get"), ("einvoice", "get"), ("take_back_invoice", "get"), ("settle", "post"),
        ("mail_paper", "post"),
    ],
)  # fmt: skip
def test_a_paper_that_is_shut_away_is_not_opened_changed_or_mailed_in_daily_work(
    photographer, shut_away, name, method
):
    answer = getattr(photographer, method)(reverse(f"studio:{name}", args=[shut_away.pk]))

    assert answer.status_code == 409
    assert "is shut away. Open it under Books, Kept by law, and say why." in answer.content.decode()
    assert CANARY not in answer.content.decode()


def test_with_a_reason_it_is_opened_and_the_look_is_noted(photographer, shut_away):
    page = reverse("studio:kept_by_law")
    without = photographer.post(page, {"paper": shut_away.pk, "reason": " "})

    other = invoices.issue(
        order_id=builders.a_paid_order(
            builders.a_day(on=builders.SATURDAY + timedelta(days=1), bench=BenchDay.objects.get().bench)
        ).pk,
        now=NOW,
    )
    not_sealed = photographer.post(page, {"paper": other.pk, "reason": "Why not"})

    opened = photographer.post(page, {"paper": shut_away.pk, "reason": "Tax inspection 2031"})

    assert (without.status_code, not_sealed.status_code) == (400, 400)
    assert (opened["Content-Type"], other.looks.count()) == ("application/pdf", 0)
    assert f"{CANARY} name" in papers.flowing(opened.content)
    [look] = shut_away.looks.all()
    assert (look.reason, look.by.username) == ("Tax inspection 2031", "operator")
    # 2026 and ten years, to the end of the year.
    listed = photographer.get(page).content.decode()
    assert "31 Dec 2036" in listed
    assert "Tax inspection 2031" in listed
