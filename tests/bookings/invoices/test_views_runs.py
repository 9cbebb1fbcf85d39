"""Many invoices at once, as the photographer asks for them: ticked, followed, and printed in one file."""

import io
from zipfile import ZipFile

import pytest
from django.urls import reverse

from bookings import drain as due
from bookings.invoices.models import InvoiceRun
from bookings.outbox.models import Notice, NoticeKind
from tests.builders import NOW
from tests.builders.invoices import broad_day, issued, made_order
from tests.reading.pages import Page
from tests.reading.studio_pages import body, following, read

pytestmark = pytest.mark.django_db

TO_INVOICE = reverse("studio:to_invoice")


@pytest.fixture
def day():
    return broad_day()


def test_all_that_waits_is_ticked_and_issued_with_one_press(photographer, day):
    orders = [made_order(day), made_order(day, number=4)]
    page = Page(photographer.get(TO_INVOICE))
    assert page.fields["orders"] in [str(order.pk) for order in orders]
    assert [order.reference in page.text for order in orders] == [True, True]

    response = photographer.post(TO_INVOICE, {"orders": [order.pk for order in orders], "by_mail": "on"})

    assert response.url == reverse("studio:invoice_run", args=[InvoiceRun.objects.get().pk])
    assert "0 of 2 done" in following(photographer, response)
    due.drain(now=NOW)
    assert "2 of 2 done: 2 issued, 0 refused." in following(photographer, response)
    assert Notice.objects.filter(kind=NoticeKind.INVOICE).count() == 2
    papers = read(photographer, "invoice_run_papers", InvoiceRun.objects.get().pk)
    assert papers.headers["Content-Type"] == "application/zip"
    with ZipFile(io.BytesIO(body(papers))) as archive:
        assert archive.namelist() == ["INV-2026-0001.pdf", "INV-2026-0002.pdf"]


def test_a_run_under_way_is_looked_at_again_and_a_finished_one_is_not(photographer, day):
    photographer.post(TO_INVOICE, {"orders": [made_order(day).pk]})
    run = InvoiceRun.objects.get()
    before = read(photographer, "invoice_run", run.pk).content.decode()
    state = read(photographer, "invoice_run_state", run.pk).json()

    due.drain(now=NOW)

    after = read(photographer, "invoice_run", run.pk).content.decode()
    assert ('http-equiv="refresh"' in before, "data-state-at" in before) == (True, True)
    assert ('http-equiv="refresh"' in after, "data-state-at" in after) == (False, False)
    assert f'data-state="{state["state"]}"' in before
    assert read(photographer, "invoice_run_state", run.pk).json() != state


def test_nothing_ticked_and_what_was_invoiced_meanwhile_are_answered_with_a_sentence(photographer, day):
    order = made_order(day)
    nothing = photographer.post(TO_INVOICE, {})
    issued(order)

    late = photographer.post(TO_INVOICE, {"orders": [order.pk]})

    assert (nothing.status_code, Page(nothing).errors) == (400, ["Tick at least one order."])
    assert "None of these orders waits for an invoice any more." in following(photographer, late)
    assert not InvoiceRun.objects.exists()
