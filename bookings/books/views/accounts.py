"""What the accountant and the client are given: numbers of the year, journals of a period, statements."""

from collections.abc import Iterable, Sequence

from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from bookings.books.forms import PeriodForm
from bookings.books.paper import statement_pdf
from bookings.books.selectors import journal, numbers, statements
from bookings.books.views.open import books_page
from bookings.common.forms import FIRST_YEAR, LAST_YEAR
from bookings.common.http import pdf, search_words
from bookings.orders.models import Client
from plates.common.access import photographer
from plates.common.spreadsheet import lines

LONGEST_WORDS = 100  # as the page's field says


@photographer
@require_safe
def year_end(request: HttpRequest) -> HttpResponse:
    """The numbers of a year: the one asked for, else the last that has any."""
    known = numbers.years()
    year = _year(request) or (known[0] if known else timezone.now().year)
    found = numbers.numbers_of(year=year)
    context = {
        "year": year,
        "years": known,
        "series": found,
        "sums": numbers.sums([paper for each in found for paper in each.papers]),
    }
    return render(request, "bookings/books/numbers.html", context)


@photographer
@require_safe
def numbers_file(request: HttpRequest) -> HttpResponseBase:
    year = _year(request) or timezone.now().year
    return _file(numbers.table(year=year), f"numbers-{year}")


@photographer
@require_safe
def documents_file(request: HttpRequest) -> HttpResponseBase:
    form = PeriodForm(request.GET)
    if not form.is_valid():
        return books_page(request, form)
    return _file(journal.documents(period=form.period()), f"documents-{_named(form)}")


@photographer
@require_safe
def payments_file(request: HttpRequest) -> HttpResponseBase:
    form = PeriodForm(request.GET)
    if not form.is_valid():
        return books_page(request, form)
    return _file(journal.payments(period=form.period()), f"payments-{_named(form)}")


@photographer
@require_safe
def clients(request: HttpRequest) -> HttpResponse:
    """The clients, newest first, or those whose name or address has the words looked for."""
    words = search_words(request)
    context = {"clients": statements.clients(words=words), "words": words, "most": statements.MOST_CLIENTS}
    return render(request, "bookings/books/statements.html", context)


@photographer
@require_safe
def statement(request: HttpRequest, client_id: int) -> HttpResponse:
    return render(request, "bookings/books/statement.html", {"statement": _statement(client_id)})


@photographer
@require_safe
def statement_paper(request: HttpRequest, client_id: int) -> HttpResponse:
    return pdf(statement_pdf(_statement(client_id), now=timezone.now()), f"statement-{client_id}.pdf")


def _statement(client_id: int) -> statements.Statement:
    found = statements.statement(get_object_or_404(Client, pk=client_id), now=timezone.now())
    if found is None:
        raise Http404
    return found


def _year(request: HttpRequest) -> int | None:
    """The year that is asked for; None for anything that is none."""
    asked = request.GET.get("year", "")
    year = int(asked) if asked.isascii() and asked.isdigit() and len(asked) == len(str(LAST_YEAR)) else 0
    return year if FIRST_YEAR <= year <= LAST_YEAR else None


def _named(form: PeriodForm) -> str:
    return f"{form.period().since}-to-{form.period().until}"


def _file(rows: Iterable[Sequence[object]], name: str) -> StreamingHttpResponse:
    return StreamingHttpResponse(
        lines(rows),
        content_type="text/csv; charset=utf-8; header=present",
        headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
    )
