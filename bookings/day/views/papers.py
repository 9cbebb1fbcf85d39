"""Papers for the wall and for plates."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_safe

from bookings.common.http import pdf
from bookings.common.paper import Paper
from bookings.day import run_sheet as documents
from bookings.diary.models import SittingDay
from bookings.handover import labels as wall
from bookings.orders.models import Order
from plates.bench.models import Plate
from plates.common.access import photographer


@photographer
@require_safe
def run_sheet(request: HttpRequest, day_id: int) -> HttpResponse:
    shown = _day(day_id)
    paper = documents.run_sheet_pdf(shown, now=timezone.now(), paper=_paper(request))
    return pdf(paper, f"run-sheet-{shown.bench_day.on}.pdf")


@photographer
@require_safe
def rack_sheet(request: HttpRequest, day_id: int) -> HttpResponse:
    shown = _day(day_id)
    paper = wall.rack_sheet_pdf(shown, now=timezone.now(), paper=_paper(request))
    return pdf(paper, f"rack-sheet-{shown.bench_day.on}.pdf")


@photographer
@require_safe
def day_labels(request: HttpRequest, day_id: int) -> HttpResponse:
    shown = _day(day_id)
    return pdf(wall.day_labels_pdf(shown, paper=_paper(request)), f"labels-{shown.bench_day.on}.pdf")


@photographer
@require_safe
def plate_label(request: HttpRequest, number: int) -> HttpResponse:
    plate = get_object_or_404(Plate.objects.select_related("size", "slot__job__day"), number=number)
    return pdf(wall.label_pdf(plate, paper=_paper(request)), f"label-{plate.number}.pdf")


@photographer
@require_safe
def plate_order(request: HttpRequest, number: int) -> HttpResponse:
    """Lead from a plate, which knows no client, to the order that it was made for."""
    order = get_object_or_404(Order, sitting__bench_job__slots__plates__number=number)
    return redirect("studio:order", order.reference)


def _day(day_id: int) -> SittingDay:
    return get_object_or_404(
        SittingDay.objects.select_related("venue", "bench_day__bench__largest_size"), pk=day_id
    )


def _paper(request: HttpRequest) -> Paper | None:
    """The sheet that is asked for; None, and with it the studio's usual one, for anything else."""
    asked = request.GET.get("paper", "")
    return Paper(asked) if asked in {paper.value for paper in Paper} else None
