"""The silver bath: how strong it is, what brings it back, what is due. Numbers only, no client's name."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from plates.chemistry.bath import dosing as bath
from plates.chemistry.bath.density import per_cent_w_w
from plates.chemistry.bath.hydrometer import USED_BATH
from plates.chemistry.bath.strength import Strength
from plates.chemistry.hazards.cautions import cautions_for
from plates.chemistry.units import IMPERIAL_OUNCE, US_OUNCE
from plates.common.access import operator_of, photographer
from plates.errors import StoreRefused
from plates.store.forms.baths import CareForm, ReadingForm, StockForm
from plates.store.models import Batch, Solution
from plates.store.selectors import baths as selector
from plates.store.selectors.bath_readings import Doses, doses
from plates.store.selectors.supplies import figures
from plates.store.services import baths as service


@photographer
@require_safe
def bath_page(request: HttpRequest, batch_id: int) -> HttpResponse:
    return _page(request, _bath(batch_id))


@photographer
@require_POST
def bath_read(request: HttpRequest, batch_id: int) -> HttpResponse:
    """Write a reading down."""
    found, form = _bath(batch_id), ReadingForm(request.POST)
    if form.is_valid():
        try:
            now, operator = timezone.now(), operator_of(request)
            service.record_reading(batch_id=found.pk, reading=form.reading(), operator=operator, now=now)
            return redirect("plates:bath", found.pk)
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
    return _page(request, found, reading=form)


@photographer
@require_POST
def bath_care(request: HttpRequest, batch_id: int) -> HttpResponse:
    """Write down what was done to it."""
    found, form = _bath(batch_id), CareForm(request.POST)
    if form.is_valid():
        now, operator = timezone.now(), operator_of(request)
        service.care(batch_id=found.pk, done=form.done(), operator=operator, now=now)
        return redirect("plates:bath", found.pk)
    return _page(request, found, care=form)


def _page(
    request: HttpRequest, found: Batch, *, reading: ReadingForm | None = None, care: CareForm | None = None
) -> HttpResponse:
    """The page of a bath; with a form that was filled in wrong, that form as it was filled in."""
    room, stock = figures(), StockForm(request.GET if "stock_strength" in request.GET else None)
    state = selector.state(batch=found, room=room, now=timezone.now())
    wrong = reading or care
    context = {
        "batch": found,
        "state": state,
        "bath": state.book.bath,
        "said": _said(state.book.bath.strength) if state.book.bath else None,
        "doses": _doses(state, stock.strength()),
        "target": room.limits().target,
        "stock_form": stock if stock.is_bound else StockForm(),
        "reading_form": reading or ReadingForm(),
        "care_form": care or CareForm(),
        "misleads": USED_BATH,
        "handle": bath.HANDLE,
        "cautions": cautions_for(["silver_nitrate"]),
        "wrong": wrong,
    }
    return render(request, "plates/store/bath.html", context, status=400 if wrong else 200)


def _doses(state: selector.BathState, stock: Strength) -> Doses | None:
    """What brings it back, in its present volume and filled up to the one it was made with."""
    now = state.book.bath
    if now is None:
        return None
    target = figures().limits().target
    full = bath.bath(state.full_ml, target)
    return doses(bath=now, target=target, stock=stock, full=full)


def _said(strength: Strength) -> dict[str, object]:
    """One strength in every way that it is printed."""
    return {
        "w_v": strength.per_cent_w_v,
        "w_w": per_cent_w_w(strength),
        "us": strength.grains_per(US_OUNCE),
        "imperial": strength.grains_per(IMPERIAL_OUNCE),
    }


def _bath(batch_id: int) -> Batch:
    return get_object_or_404(Batch, pk=batch_id, kind=Solution.BATH)
