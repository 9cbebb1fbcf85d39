"""The store room and its batches: what stands there, is mixed, becomes of it. Numbers only, no client."""

from datetime import date

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from plates.chemistry.hazards.cautions import DEFER, cautions_for
from plates.chemistry.recipes.serialization import load
from plates.common.access import operator_of, photographer
from plates.common.dates import latest
from plates.common.forms import StoreForm
from plates.errors import StoreRefused
from plates.store.amounts import small
from plates.store.forms.batches import DaysForm, EndForm, MixForm, MoveForm
from plates.store.models import Batch
from plates.store.selectors import batches as selector
from plates.store.services import batches as service
from plates.store.services.mixing import mix as mix_batch


@photographer
@require_safe
def store(request: HttpRequest) -> HttpResponse:
    """What stands on the shelf, and how it stands today."""
    on = _today()
    context = {"shelf": selector.on_the_shelf(on=on), "ended": selector.ended(), "on": on}
    return render(request, "plates/store/store.html", context)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def mix(request: HttpRequest) -> HttpResponse:
    """Write a batch down that was mixed or bought."""
    if request.method != "POST":
        begun = {"mixed_on": _today(), "draw": True} | request.GET.dict()
        return _mix_page(request, MixForm(latest=latest(timezone.now()), initial=begun))
    form = MixForm(request.POST, latest=latest(timezone.now()))
    if form.is_valid():
        label = selector.next_label(kind=form.cleaned_data["kind"])
        try:
            made = mix_batch(mixing=form.mixing(label), operator=operator_of(request), now=timezone.now())
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("Write %(label)s on the bottle.") % {"label": made.label})
            return redirect("plates:batch", made.pk)
    return _mix_page(request, form, status=400)


@photographer
@require_safe
def batch(request: HttpRequest, batch_id: int) -> HttpResponse:
    return _page(request, batch_id)


@photographer
@require_POST
def batch_move(request: HttpRequest, batch_id: int) -> HttpResponse:
    """Write down what was taken, added or counted."""
    form = MoveForm(request.POST)
    if form.is_valid():
        cleaned = form.cleaned_data
        service.move(
            batch_id=_id(batch_id),
            kind=cleaned["kind"],
            amount_ul=small(cleaned["amount"], "ul"),
            note=cleaned["note"],
            operator=operator_of(request),
            now=timezone.now(),
        )
        return redirect("plates:batch", batch_id)
    return _page(request, batch_id, move=form)


@photographer
@require_POST
def batch_days(request: HttpRequest, batch_id: int) -> HttpResponse:
    """Say anew when it is ripe, past its best, opened."""
    form = DaysForm(request.POST)
    if form.is_valid():
        try:
            service.set_days(batch_id=_id(batch_id), **form.cleaned_data)
            return redirect("plates:batch", batch_id)
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
    return _page(request, batch_id, days=form)


@photographer
@require_POST
def batch_end(request: HttpRequest, batch_id: int) -> HttpResponse:
    """Say that it is no more."""
    form = EndForm(request.POST)
    if form.is_valid():
        service.end(batch_id=_id(batch_id), why=form.cleaned_data["why"], now=timezone.now())
        return redirect("plates:store")
    return _page(request, batch_id, end=form)


def _page(
    request: HttpRequest,
    batch_id: int,
    *,
    move: MoveForm | None = None,
    days: DaysForm | None = None,
    end: EndForm | None = None,
) -> HttpResponse:
    """The page of a batch; with a form that was filled in wrong, that form as it was filled in."""
    found = get_object_or_404(selector.with_events().select_related("mixed_by"), pk=batch_id)
    lines = load(found.contents)
    wrong: StoreForm | None = move or days or end
    context = {
        "batch": found,
        "kept": selector.on_shelf(batch=found, on=_today()),
        "lines": lines,
        "cautions": cautions_for(line.substance for line in lines),
        "defer": DEFER,
        "move_form": move or MoveForm(),
        "days_form": days or DaysForm(initial=_days(found)),
        "end_form": end or EndForm(),
        "wrong": wrong,
    }
    return render(request, "plates/store/batch.html", context, status=400 if wrong else 200)


def _mix_page(request: HttpRequest, form: MixForm, status: int = 200) -> HttpResponse:
    return render(request, "plates/store/mix.html", {"form": form}, status=status)


def _days(found: Batch) -> dict[str, object]:
    return {name: getattr(found, name) for name in ("ripe_from", "best_before", "opened_on")}


def _id(batch_id: int) -> int:
    return get_object_or_404(Batch, pk=batch_id).pk


def _today() -> date:
    return timezone.now().date()
