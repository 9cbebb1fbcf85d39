"""One bench's settings: numbers only, no client's name."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from plates.models import Bench
from plates.selectors import ledger
from plates.views.access import photographer


@photographer
@require_safe
def bench(request: HttpRequest, bench_id: int) -> HttpResponse:
    shown = get_object_or_404(Bench.objects.select_related("largest_size"), pk=bench_id)
    return render(request, "plates/bench.html", {"bench": shown, "wash": ledger.in_the_wash(bench=shown)})
