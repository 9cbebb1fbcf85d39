"""Many invoices at once: a few at a time, whatever is refused or cut short."""

from datetime import timedelta

import pytest
from django.db import IntegrityError

from bookings.errors import InvoiceRefused, NothingToInvoice
from bookings.invoices.models import Invoice, InvoiceRun
from bookings.invoices.selectors.runs import progress
from bookings.invoices.services import issuing as invoices
from bookings.invoices.services import runs as invoice_runs
from bookings.outbox.models import Notice, NoticeKind
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import broad_day, issued, made_order

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(minutes=1)
SENTENCE = "This invoice does not add up and was not issued."


class Cut(BaseException):
    """The process ends here."""


@pytest.fixture
def orders():
    day = broad_day()
    return [made_order(day) for _ in range(3)]


@pytest.fixture
def operator():
    return builders.an_operator()


def a_run(orders, operator, *, by_mail=False):
    ids = [order.pk for order in orders]
    return invoice_runs.start(order_ids=ids, by_mail=by_mail, asked_by=operator, now=NOW)


def counted(run):
    now = progress(InvoiceRun.objects.get(pk=run.pk))
    return len(now.issued), len(now.refused), now.waiting


def failing_for(monkeypatch, order, error):
    issue = invoices.issue

    def failing(*, order_id, now):
        if order_id == order.pk:
            raise error
        return issue(order_id=order_id, now=now)

    monkeypatch.setattr(invoices, "issue", failing)


def test_a_run_is_worked_off_a_few_orders_at_a_time_and_each_invoice_mailed_once(orders, operator):
    run = a_run(orders, operator, by_mail=True)
    assert counted(run) == (0, 0, 3)

    invoice_runs.advance(now=NOW, at_a_time=2)
    assert counted(run) == (2, 0, 1)
    assert InvoiceRun.objects.get().finished_at is None
    for _ in range(2):
        invoice_runs.advance(now=LATER, at_a_time=2)

    assert counted(run) == (3, 0, 0)
    assert InvoiceRun.objects.get().finished_at == LATER
    labels = [
        f"INV-2026-000{number}"
        for number in Invoice.objects.order_by("number").values_list("number", flat=True)
    ]
    letters = Notice.objects.filter(kind=NoticeKind.INVOICE)
    assert (
        labels
        == sorted(letters.values_list("occasion", flat=True))
        == [f"INV-2026-000{n}" for n in (1, 2, 3)]
    )


@pytest.mark.parametrize(
    ("error", "sentence"),
    [
        (InvoiceRefused(SENTENCE), SENTENCE),
        (IntegrityError("invoice_adds_up"), "The database did not take this invoice."),
    ],
    ids=["the rules", "the database"],
)
def test_a_refused_order_keeps_its_sentence_and_stops_none_of_the_others(
    orders, operator, monkeypatch, error, sentence
):
    run = a_run(orders, operator)
    failing_for(monkeypatch, orders[1], error)

    invoice_runs.advance(now=NOW)

    assert counted(run) == (2, 1, 0)
    [row] = progress(run).refused
    assert row.order == orders[1]
    assert row.refused.startswith(sentence)
    assert sorted(Invoice.objects.values_list("number", flat=True)) == [1, 2]


def test_a_run_that_is_cut_short_goes_on_where_it_was(orders, operator, monkeypatch):
    run = a_run(orders, operator)
    with monkeypatch.context() as ending:
        failing_for(ending, orders[1], Cut())
        with pytest.raises(Cut):
            invoice_runs.advance(now=NOW)
    assert counted(run) == (1, 0, 2)

    invoice_runs.advance(now=LATER)

    assert counted(run) == (3, 0, 0)
    assert sorted(Invoice.objects.values_list("number", flat=True)) == [1, 2, 3]


def test_an_order_that_was_invoiced_by_hand_meanwhile_keeps_that_invoice(
    orders, operator, django_assert_num_queries
):
    with django_assert_num_queries(1):
        assert invoice_runs.advance(now=NOW) == 0
    run = a_run(orders, operator)
    by_hand = issued(orders[2])

    invoice_runs.advance(now=NOW)

    assert by_hand in [row.invoice for row in progress(run).issued]
    assert Invoice.objects.count() == 3


def test_orders_that_wait_no_more_are_left_out_of_a_run_and_a_run_of_nothing_is_refused(orders, operator):
    issued(orders[0])
    a_run(orders[:2], operator)

    run = a_run(orders, operator)

    assert [row.order for row in run.orders.all()] == [orders[2]]
    with pytest.raises(NothingToInvoice):
        a_run(orders, operator)
    assert InvoiceRun.objects.count() == 2
