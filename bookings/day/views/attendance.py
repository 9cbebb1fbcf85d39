"""Marks on a sitter, pressed in the queue."""

from collections.abc import Callable
from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from bookings.day.services import attendance
from bookings.errors import BookingsError
from bookings.orders.models import Sitting
from plates.common.access import photographer
from plates.errors import PlatesError


@photographer
@require_POST
def mark(request: HttpRequest, sitting_id: int) -> HttpResponse:
    sitting = get_object_or_404(Sitting, pk=sitting_id)
    as_ = request.POST.get("as", "")
    return attempt(
        request, sitting, partial(attendance.mark, sitting_id=sitting_id, as_=as_, now=timezone.now())
    )


@photographer
@require_POST
def undo_mark(request: HttpRequest, sitting_id: int) -> HttpResponse:
    sitting = get_object_or_404(Sitting, pk=sitting_id)
    return attempt(request, sitting, partial(attendance.undo_mark, sitting_id=sitting_id, now=timezone.now()))


def attempt(request: HttpRequest, sitting: Sitting, action: Callable[[], object]) -> HttpResponse:
    """Do it and show the queue again at the same sitting; a refusal is shown above the queue."""
    try:
        action()
    except (PlatesError, BookingsError) as refusal:
        messages.error(request, str(refusal))
    return redirect(f"{reverse('studio:day', args=[sitting.day_id])}#sitting-{sitting.pk}")
