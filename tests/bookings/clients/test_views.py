"""Behind a mailed link: opened by a button, for ten minutes, in one browser, without JavaScript."""

import io
import json
import zipfile
from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose, StepUp
from bookings.invoices.services import issuing as invoices
from bookings.orders import links
from bookings.orders.models import Client
from plates.bench.models import Stage
from plates.ledger.services import facts
from tests import builders
from tests.builders import NOW
from tests.plates.ledger.test_pictures import a_picture

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(days=10)


@pytest.fixture
def order():
    order = builders.a_paid_order(
        builders.a_day(), amount=8500, name="Ines Madrugada", email="ines@example.org"
    )
    builders.made_plates(order, stage=Stage.HANDED_OVER)
    return order


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(LATER, tick=False) as moved:
        yield moved


def opened(client, order, purpose):
    """The browser, with the page of a mailed link open in it."""
    asked = step_up.ask(order_id=order.pk, purpose=purpose, now=LATER)
    client.post(reverse("step_up", args=[step_up_links.token(asked)]))
    return client


def test_the_page_of_the_sitting_asks_for_a_letter_and_shows_no_address(client, order):
    page = reverse("sitting", args=[links.sitting_token(order)])

    answer = client.post(
        reverse("sitting_ask", args=[links.sitting_token(order)]), {"purpose": "data"}, follow=True
    )

    assert answer.redirect_chain == [(page, 302)]
    assert "A letter is on its way" in answer.content.decode()
    assert "ines@example.org" not in answer.content.decode()
    assert StepUp.objects.get().purpose == Purpose.DATA


def test_a_purpose_that_there_is_none_of_sends_nothing(client, order):
    client.post(reverse("sitting_ask", args=[links.sitting_token(order)]), {"purpose": "everything"})

    assert not StepUp.objects.exists()


def test_mail_software_that_fetches_a_link_opens_nothing(client, order):
    asked = step_up.ask(order_id=order.pk, purpose=Purpose.DATA, now=LATER)
    link = reverse("step_up", args=[step_up_links.token(asked)])

    for method in ("get", "head", "get", "head", "get"):
        assert getattr(client, method)(link).status_code == 200

    assert client.get(reverse("mine_data")).status_code == 410
    assert client.post(link).status_code == 302


def test_opening_leads_to_an_address_without_the_link_in_it(client, order):
    asked = step_up.ask(order_id=order.pk, purpose=Purpose.PAPERS, now=LATER)

    answer = client.post(reverse("step_up", args=[step_up_links.token(asked)]))

    assert answer.url == "/mine/papers/"
    assert "no-store" in answer.headers["Cache-Control"]


def test_the_page_closes_after_ten_minutes(client, order, clock):
    browser = opened(client, order, Purpose.DATA)
    clock.move_to(LATER + timedelta(minutes=10))

    assert browser.get(reverse("mine_data")).status_code == 410


def test_a_link_for_papers_does_not_show_the_details(client, order):
    browser = opened(client, order, Purpose.PAPERS)

    assert browser.get(reverse("mine_data")).status_code == 410


def test_the_papers_are_the_invoices_and_the_pictures_of_that_order_alone(client, order):
    invoice = invoices.issue(order_id=order.pk, now=LATER)
    plate = order.sitting.bench_job.slots.get().plates.get()
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=LATER)
    browser = opened(client, order, Purpose.PAPERS)

    page = browser.get(reverse("mine_papers")).content.decode()

    assert f"{invoice.label} (PDF)" in page
    assert browser.get(reverse("mine_invoice", args=[invoice.pk])).content.startswith(b"%PDF")
    assert browser.get(reverse("mine_picture", args=[plate.number])).content.startswith(b"\xff\xd8")
    assert browser.get(reverse("mine_invoice", args=[invoice.pk + 1])).status_code == 404
    assert browser.get(reverse("mine_picture", args=[plate.number + 1])).status_code == 404


def test_an_answer_can_be_changed(client, order):
    browser = opened(client, order, Purpose.DATA)

    browser.post(reverse("mine_data"), {"consent_show": "on"})

    assert {row.purpose: row.given for row in order.client.consents.all()}["show"] is True


def test_the_copy_holds_everything_that_is_kept(client, order):
    invoice = invoices.issue(order_id=order.pk, now=LATER)
    plate = order.sitting.bench_job.slots.get().plates.get()
    facts.save_picture(plate_id=plate.pk, content=a_picture(), operator=None, now=LATER)
    browser = opened(client, order, Purpose.DATA)

    packed = zipfile.ZipFile(io.BytesIO(browser.get(reverse("mine_copy")).content))

    assert sorted(packed.namelist()) == sorted(
        ["kept.json", f"{invoice.label}.pdf", f"plate-{plate.number}.jpg"]
    )
    kept = json.loads(packed.read("kept.json"))
    assert (kept["client"]["name"], kept["client"]["email"]) == ("Ines Madrugada", "ines@example.org")
    assert [payment["amount"] for payment in kept["orders"][0]["payments"]] == [8500]


def test_being_forgotten_needs_the_box_ticked(client, order):
    browser = opened(client, order, Purpose.DATA)

    answer = browser.post(reverse("mine_erase"), {})

    assert answer.status_code == 400
    assert "Tick the box if you want to be forgotten." in answer.content.decode()
    assert Client.objects.get(pk=order.client_id).erased_at is None


def test_who_is_forgotten_comes_back_to_a_page_without_a_name(client, order):
    browser = opened(client, order, Purpose.DATA)

    answer = browser.post(reverse("mine_erase"), {"sure": "on"}, follow=True)

    assert Client.objects.get(pk=order.client_id).erased_at == LATER
    assert "More, for you alone" not in answer.content.decode()
    assert browser.get(reverse("mine_data")).status_code == 410
