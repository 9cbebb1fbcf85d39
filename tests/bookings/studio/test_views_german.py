"""A whole booking at a studio that speaks German: pages, letter, papers, and not a word of English left over."""

from datetime import UTC, datetime
from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose
from bookings.changes.services import sittings
from bookings.day import run_sheet as documents
from bookings.handover import papers as pickup_notices
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.services import issuing as invoices
from bookings.orders import links
from bookings.orders.models import Order
from bookings.outbox.models import NoticeKind
from bookings.studio.language import speaking_for_the_studio
from bookings.vouchers.paper import voucher_pdf
from bookings.walkups import links as line_links
from bookings.walkups.services import line
from plates.bench.models import Stage
from tests import builders
from tests.bookings.studio.german import a_german_studio, english_in
from tests.reading import letters, papers
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

TYPED = {"name": "Ines Madrugada", "email": "ines@example.org", "cautions": "on"}


@pytest.fixture
def day(day):
    a_german_studio()
    builders.an_extra("Samtetui")
    return day


def read(response, status=200):
    """The page, which says nothing in English."""
    assert response.status_code == status
    page = Page(response)
    assert english_in(page.text) == [], page.text
    return page


def a_wish(day, **more):
    return {f"size_{builders.a_size().pk}": "1", "sitters": "1"} | more


def test_a_booking_from_the_first_page_to_the_deposit(client, day):
    start = read(client.get(reverse("home")))
    assert "Ein Porträt, das entsteht, während Sie warten" in start.text
    read(client.get(reverse("choose")))
    times = read(client.get(reverse("times"), a_wish(day)))
    assert "Samstag, 28. November 2026" in times.text
    key = str(uuid4())
    held = client.post(
        reverse("hold"),
        a_wish(day, submission_key=key, start=f"{day.pk} 2026-11-28T10:00:00+00:00"),
        follow=True,
    )
    assert "Wer kommt?" in read(held).text

    details = held.redirect_chain[-1][0]
    assert "Schreiben Sie Ihren Namen." in read(client.post(details, {"name": ""}), 400).errors
    deposit = read(client.post(details, TYPED, follow=True))

    assert "42,50 €" in deposit.text
    assert "Nur eines fehlt noch: die Anzahlung" in deposit.text
    assert Order.objects.get().lines.get().text == "Platte quarter", (
        "what is sold is named as the client was told"
    )


def test_what_is_refused_says_why_in_german(client, day):
    wish = a_wish(day, submission_key=str(uuid4()), start=f"{day.pk} 2026-11-28T10:07:00+00:00")

    refused = read(client.post(reverse("hold"), wish), 409)
    nowhere = read(client.get("/there-is-none/"), 404)
    dead = read(client.get(reverse("sitting", args=["not-a-link"])), 410)

    assert "Um 10:07 beginnt keine Sitzung." in refused.text
    assert "Unter dieser Adresse ist nichts" in nowhere.text
    assert "Dieser Link ist nicht vollständig" in dead.text


@pytest.mark.parametrize("purpose", Purpose)
def test_the_pages_behind_mailed_links(client, day, purpose):
    order = builders.a_paid_order(day, name="Ines Madrugada", email="ines@example.org")
    asked = step_up.ask(order_id=order.pk, purpose=purpose, now=builders.NOW)
    address = reverse("step_up", args=[step_up_links.token(asked)])

    read(client.get(reverse("sitting", args=[links.sitting_token(order)])))
    read(client.get(address))
    read(client.post(address, follow=True))


def test_the_walk_up_line(client, day, clock):
    clock.move_to(datetime(2026, 11, 28, 10, 0, tzinfo=UTC))
    line.open_or_close(day_id=day.pk, keeps=True)
    place = builders.a_line_place(day, now=datetime(2026, 11, 28, 10, 0, tzinfo=UTC))
    token = line_links.line_token(day)

    read(client.get(reverse("line_join", args=[token])))
    read(client.post(reverse("line_join", args=[token]), {"name": "7"}), 400)
    read(client.get(reverse("line_large", args=[token])))
    assert (
        "Sie sind an der Reihe"
        in read(client.get(reverse("line_place", args=[line_links.place_token(place)]))).text
    )


def test_a_voucher_is_asked_for_and_printed(client, day):
    form = {"amount": "80", "buyer_name": "Ines", "buyer_email": "ines@example.org", "key": str(uuid4())}

    read(client.get(reverse("give_voucher")))
    unpaid = read(client.post(reverse("give_voucher"), form, follow=True))
    with speaking_for_the_studio():
        paper = papers.flowing(voucher_pdf(builders.a_voucher(8000, for_name="Rui")))

    assert "Nur eines fehlt noch: das Geld" in unpaid.text
    assert english_in(paper) == []
    assert "Gutschein über" in paper


def test_every_letter_is_in_german_in_both_its_forms(day):
    order = builders.a_paid_order(day, name="Ines Madrugada", email="ines@example.org")
    builders.made_plates(order, stage=Stage.READY)

    for kind in (
        NoticeKind.DEPOSIT_DUE,
        NoticeKind.CONFIRMED,
        NoticeKind.NEW_TIME,
        NoticeKind.LATER,
        NoticeKind.READY,
    ):
        letter = letters.parsed(letters.a_notice(order, kind))
        for said in (letter["Subject"], letters.plain(letter), " ".join(letters.words_of_html(letter))):
            assert english_in(said) == [], said
        assert '<html lang="de">' in letter.get_body(("html",)).get_content()


def test_the_letter_of_a_cancelled_sitting_and_its_calendar_file(day):
    order = builders.a_paid_order(day, name="Ines Madrugada", email="ines@example.org")
    sittings.cancel(order_id=order.pk, now=builders.NOW)

    letter = letters.the_letter(order, NoticeKind.CANCELLED)

    assert english_in(letters.flowing(letter)) == []
    assert "Ihre Sitzung am Samstag, 28. November 2026 ist abgesagt" in letter["Subject"]
    assert "Porträtsitzung" in letters.calendar_part(letter).get_content()


def test_the_papers_are_in_german(day):
    order = builders.a_paid_order(day, name="Ines Madrugada", email="ines@example.org")
    builders.made_plates(order, stage=Stage.READY)
    with speaking_for_the_studio():
        issued = invoices.issue(order_id=order.pk, now=builders.NOW)
        told = {
            "invoice": invoice_pdf(issued),
            "pickup": pickup_notices.pickup_notice_pdf(order, now=builders.NOW),
            "run sheet": documents.run_sheet_pdf(day, now=builders.NOW),
        }

    texts = {name: papers.flowing(paper) for name, paper in told.items()}
    assert {name: english_in(text) for name, text in texts.items()} == {name: [] for name in told}
    assert "1 von 1" in texts["invoice"]
