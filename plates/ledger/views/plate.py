"""One plate: its history, what was noted about it, its picture. Numbers only, no client's name."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from plates.bench import selectors as ledger
from plates.bench.models import Plate
from plates.bench.selectors import facts_of
from plates.common.access import operator_of, photographer
from plates.errors import PictureRefused
from plates.ledger.forms import FactsForm, PictureForm, facts_initial
from plates.ledger.selectors import picture_of
from plates.ledger.services import facts as service
from plates.store.selectors.batches import labels


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def plate(request: HttpRequest, number: int) -> HttpResponse:
    """Show a plate, and note what the operator says about it."""
    shown = _plate(number)
    if request.method != "POST":
        return _page(request, shown)
    form = FactsForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, facts_form=form)
    service.note(plate_id=shown.pk, noted=form.noted(), operator=operator_of(request), now=timezone.now())
    messages.success(request, _("Noted for plate {number}.").format(number=shown.number))
    return redirect("plates:plate", shown.number)


@photographer
@require_POST
def save_picture(request: HttpRequest, number: int) -> HttpResponse:
    """Take a picture of the plate in, or throw the kept one away."""
    shown, operator, now = _plate(number), operator_of(request), timezone.now()
    if "remove" in request.POST:
        service.remove_picture(plate_id=shown.pk, operator=operator, now=now)
        return redirect("plates:plate", shown.number)
    form = PictureForm(request.POST, request.FILES)
    if form.is_valid():
        content = form.cleaned_data["picture"]
        try:
            service.save_picture(plate_id=shown.pk, content=content, operator=operator, now=now)
            return redirect("plates:plate", shown.number)
        except PictureRefused as refusal:
            form.add_error("picture", str(refusal))
    return _page(request, shown, picture_form=form)


@photographer
@require_safe
def picture(request: HttpRequest, number: int) -> HttpResponse:
    content = picture_of(plate=_plate(number))
    if content is None:
        raise Http404
    return HttpResponse(content, content_type="image/jpeg", headers={"X-Content-Type-Options": "nosniff"})


def _plate(number: int) -> Plate:
    return get_object_or_404(Plate.objects.select_related("size", "slot__job__day"), number=number)


def _page(
    request: HttpRequest,
    shown: Plate,
    *,
    facts_form: FactsForm | None = None,
    picture_form: PictureForm | None = None,
) -> HttpResponse:
    """The page of a plate; with a form that was filled in wrong, that form as it was filled in."""
    facts = facts_of(plate=shown)
    context = {
        "plate": shown,
        "facts": facts,
        "history": ledger.history(plate=shown),
        "shelf": labels(),
        "facts_form": facts_form or FactsForm(initial=facts_initial(facts)),
        "picture_form": picture_form or PictureForm(),
        "wrong": facts_form or picture_form,
    }
    return render(request, "plates/ledger/plate.html", context, status=400 if context["wrong"] else 200)
