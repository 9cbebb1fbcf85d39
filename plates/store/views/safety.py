"""What can hurt, and what becomes of it: cautions, labels for bottles, fire, waste. Numbers only, no client."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from plates.chemistry.hazards.cautions import DEFER
from plates.chemistry.hazards.classification import SHEET_FIRST
from plates.chemistry.hazards.substances import SUBSTANCES
from plates.common.access import operator_of, photographer
from plates.errors import StoreRefused
from plates.store import bottle_label
from plates.store.bottle_label import label_pdf
from plates.store.forms.safety import ClearingForm, ContainerForm, FireForm, WasteForm
from plates.store.models import Batch
from plates.store.selectors import safety as selector
from plates.store.selectors.safety import fixers
from plates.store.selectors.supplies import figures
from plates.store.services import waste as service


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def safety(request: HttpRequest) -> HttpResponse:
    """Show what is at hand and its cautions; keep the studio's own figure for fire."""
    room = figures()
    form = FireForm(request.POST or None, initial={"fire_limit": room.fire_limit_ml})
    if request.method == "POST" and form.is_valid():
        service.set_fire_limit(millilitres=form.cleaned_data["fire_limit"])
        return redirect("plates:safety")
    here = selector.at_hand()
    context = {
        "here": here,
        "cautions": here.cautions,
        "fire": selector.fire(room=room),
        "cyanide": room.cyanide(),
        "defer": DEFER,
        "sheet_first": SHEET_FIRST,
        "form": form,
    }
    return render(request, "plates/store/safety.html", context, status=400 if form.is_bound else 200)


@photographer
@require_safe
def batch_label(request: HttpRequest, batch_id: int) -> HttpResponse:
    batch = get_object_or_404(Batch, pk=batch_id)
    return _pdf(label_pdf(bottle_label.of_batch(batch)), f"label-{batch.pk}.pdf")


@photographer
@require_safe
def substance_label(request: HttpRequest, key: str) -> HttpResponse:
    if key not in SUBSTANCES:
        raise Http404
    return _pdf(label_pdf(bottle_label.of_substance(key)), f"label-{key}.pdf")


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def waste(request: HttpRequest) -> HttpResponse:
    """The log of waste, and another line of it."""
    form = WasteForm(request.POST or None, initial={"on": timezone.now().date()})
    if request.method == "POST" and form.is_valid():
        try:
            service.write_down(
                container_id=form.cleaned_data["container"].pk,
                disposal=form.disposal(),
                operator=operator_of(request),
                now=timezone.now(),
            )
            return redirect("plates:waste")
        except StoreRefused as refusal:
            form.add_error("on", str(refusal))
    return _waste_page(request, form=form)


@photographer
@require_POST
def mark_container(request: HttpRequest) -> HttpResponse:
    """Mark another container for waste."""
    form = ContainerForm(request.POST)
    if form.is_valid():
        try:
            service.mark_container(label=form.cleaned_data["label"], kind=form.cleaned_data["holds"])
            return redirect("plates:waste")
        except StoreRefused as refusal:
            form.add_error("label", str(refusal))
    return _waste_page(request, container_form=form)


@photographer
@require_POST
def note_clearing(request: HttpRequest) -> HttpResponse:
    """Note how long a plate took to clear in a fixer."""
    form = ClearingForm(request.POST)
    if form.is_valid():
        service.note_clearing(
            batch_id=form.cleaned_data["fixer"].pk,
            seconds=form.cleaned_data["seconds"],
            operator=operator_of(request),
            now=timezone.now(),
        )
        return redirect("plates:waste")
    return _waste_page(request, clearing_form=form)


def _waste_page(
    request: HttpRequest,
    *,
    form: WasteForm | None = None,
    container_form: ContainerForm | None = None,
    clearing_form: ClearingForm | None = None,
) -> HttpResponse:
    """The log; with a form that was filled in wrong, that form as it was filled in."""
    given = [each for each in (form, container_form, clearing_form) if each is not None and each.is_bound]
    context = {
        "containers": selector.waste(),
        "log": selector.waste_log(),
        "fixers": fixers(now=timezone.now()),
        "defer": DEFER,
        "wrong": given[0] if given else None,
        "form": form or WasteForm(initial={"on": timezone.now().date()}),
        "container_form": container_form or ContainerForm(),
        "clearing_form": clearing_form or ClearingForm(),
    }
    return render(request, "plates/store/waste.html", context, status=400 if given else 200)


def _pdf(content: bytes, name: str) -> HttpResponse:
    disposition = content_disposition_header(False, name)
    headers = {"Content-Disposition": disposition or "inline", "Cache-Control": "no-store"}
    return HttpResponse(content, content_type="application/pdf", headers=headers)
