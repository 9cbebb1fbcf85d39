"""The ledger of all plates, and one bench's settings: numbers only, no client's name."""

from urllib.parse import urlencode

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from plates.bench import selectors as ledger
from plates.bench.models import Bench
from plates.bench.selectors import days_ahead
from plates.common.access import photographer
from plates.common.spreadsheet import lines
from plates.ledger import selectors as ledger_search
from plates.ledger.forms import SearchForm

ON_A_PAGE = 50


@photographer
@require_safe
def plates(request: HttpRequest) -> HttpResponse:
    """Every plate that was ever poured, newest first, or those that are looked for."""
    return _page(request, SearchForm(request.GET))


@photographer
@require_safe
def export(request: HttpRequest) -> HttpResponseBase:
    """The same plates as a file for a spreadsheet, written while it is sent."""
    form = SearchForm(request.GET)
    if not form.is_valid():
        return _page(request, form)
    return StreamingHttpResponse(
        lines(ledger_search.table(wanted=form.wanted())),
        content_type="text/csv; charset=utf-8; header=present",
        headers={"Content-Disposition": 'attachment; filename="plates.csv"'},
    )


@photographer
@require_safe
def bench(request: HttpRequest, bench_id: int) -> HttpResponse:
    shown = get_object_or_404(Bench.objects.select_related("largest_size"), pk=bench_id)
    days = days_ahead(bench=shown, now=timezone.now())
    context = {"bench": shown, "wash": ledger.in_the_wash(bench=shown), "days": days}
    return render(request, "plates/ledger/bench.html", context)


def _page(request: HttpRequest, form: SearchForm) -> HttpResponse:
    """The page of what is looked for; of nothing when that cannot be understood."""
    context: dict[str, object] = {"form": form}
    if form.is_valid():
        wanted = form.wanted()
        found = Paginator(ledger_search.plates(wanted=wanted), ON_A_PAGE)
        context["page"] = found.get_page(request.GET.get("page"))
        context["spoilage"] = ledger_search.spoilt(wanted=wanted)
        context["asked"] = urlencode(
            {name: request.GET[name] for name in form.fields if request.GET.get(name)}
        )
    return render(request, "plates/ledger/plates.html", context, status=200 if form.is_valid() else 400)
