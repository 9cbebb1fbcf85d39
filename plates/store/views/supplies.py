"""What is bought and kept: levels, the shopping list, what a plate costs. Numbers only, no client's name."""

from datetime import date
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from plates.chemistry.hazards.cautions import cautions_for
from plates.chemistry.hazards.classification import NO_ROW
from plates.chemistry.hazards.ether import NEVER_OPEN
from plates.chemistry.hazards.substances import labels_of
from plates.common.access import operator_of, photographer
from plates.common.dates import latest
from plates.errors import StoreRefused
from plates.store.forms.supplies import SeenForm, SupplyForm, SupplyMoveForm, supply_initial
from plates.store.models import Supply
from plates.store.selectors import costs as cost_selector
from plates.store.selectors import shopping as shopping_selector
from plates.store.selectors import supplies as selector
from plates.store.selectors.supplies import figures
from plates.store.services import supplies as service


@photographer
@require_safe
def supplies(request: HttpRequest) -> HttpResponse:
    """Everything in stock with its level, and containers that want attention."""
    stock = selector.in_stock(on=_today(), ether_months=figures().ether_months)
    retired = Supply.objects.filter(kept=False)
    return render(request, "plates/store/supplies.html", {"stock": stock, "retired": retired})


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def new_supply(request: HttpRequest) -> HttpResponse:
    if request.method != "POST":
        return _describe_page(request, SupplyForm())
    return _described(request, None)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def change_supply(request: HttpRequest, supply_id: int) -> HttpResponse:
    supply = get_object_or_404(Supply, pk=supply_id)
    if request.method != "POST":
        return _describe_page(request, SupplyForm(initial=supply_initial(supply)), supply)
    return _described(request, supply)


@photographer
@require_safe
def supply(request: HttpRequest, supply_id: int) -> HttpResponse:
    return _page(request, _stock(supply_id))


@photographer
@require_POST
def supply_move(request: HttpRequest, supply_id: int) -> HttpResponse:
    """Write down what came, went or was counted."""
    stock = _stock(supply_id)
    form = SupplyMoveForm(
        request.POST, supply=stock.supply, containers=stock.containers, latest=latest(timezone.now())
    )
    if form.is_valid():
        try:
            now, operator = timezone.now(), operator_of(request)
            service.move(supply_id=supply_id, moved=form.moved(), operator=operator, now=now)
            return redirect("plates:supply", supply_id)
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
    return _page(request, stock, move=form)


@photographer
@require_POST
def supply_seen(request: HttpRequest, supply_id: int) -> HttpResponse:
    """Write down what was seen of a container."""
    stock = _stock(supply_id)
    form = SeenForm(request.POST, containers=stock.containers, latest=latest(timezone.now()))
    if form.is_valid():
        try:
            _see(request, supply_id, form)
            return redirect("plates:supply", supply_id)
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
    return _page(request, stock, seen=form)


@photographer
@require_safe
def shopping(request: HttpRequest) -> HttpResponse:
    """What to buy for the work that is booked in the weeks ahead."""
    room = figures()
    found = shopping_selector.shopping(room=room, now=timezone.now())
    return render(request, "plates/store/shopping.html", {"shopping": found, "room": room})


@photographer
@require_safe
def costs(request: HttpRequest) -> HttpResponse:
    """What the material of a plate costs, by size."""
    return render(request, "plates/store/costs.html", {"costs": cost_selector.costs(room=figures())})


def _see(request: HttpRequest, supply_id: int, form: SeenForm) -> None:
    cleaned = form.cleaned_data
    service.see(
        supply_id=supply_id,
        container_id=cleaned["of"],
        kind=cleaned["seen"],
        on=cleaned["day"],
        operator=operator_of(request),
        now=timezone.now(),
        peroxide_tenths_ppm=None if cleaned["peroxide"] is None else int(cleaned["peroxide"] * 10),
    )


def _described(request: HttpRequest, supply: Supply | None) -> HttpResponse:
    form = SupplyForm(request.POST)
    if form.is_valid():
        try:
            kept = service.describe(goods=form.goods(), supply_id=supply.pk if supply else None)
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("Kept: %(name)s.") % {"name": kept.name})
            return redirect("plates:supply", kept.pk)
    return _describe_page(request, form, supply, status=400)


def _describe_page(
    request: HttpRequest, form: SupplyForm, supply: Supply | None = None, status: int = 200
) -> HttpResponse:
    return render(request, "plates/store/describe.html", {"form": form, "supply": supply}, status=status)


def _page(
    request: HttpRequest,
    stock: selector.InStock,
    *,
    move: SupplyMoveForm | None = None,
    seen: SeenForm | None = None,
) -> HttpResponse:
    """The page of a supply; with a form that was filled in wrong, that form as it was filled in."""
    found, today = stock.supply, _today()
    known: dict[str, Any] = {"containers": stock.containers, "latest": latest(timezone.now())}
    wrong = move or seen
    context = {
        "supply": found,
        "stock": stock,
        "move_form": move or SupplyMoveForm(initial={"on": today}, supply=found, **known),
        "seen_form": seen or SeenForm(initial={"day": today}, **known),
        "labels": labels_of([found.substance]) if found.substance else (),
        "no_row": NO_ROW,
        "never_open": NEVER_OPEN if found.substance == selector.ETHER else "",
        "cautions": cautions_for([found.substance]) if found.kind == Supply.Kind.CHEMICAL else (),
        "wrong": wrong,
    }
    return render(request, "plates/store/supply.html", context, status=400 if wrong else 200)


def _stock(supply_id: int) -> selector.InStock:
    found = get_object_or_404(selector.supplies(), pk=supply_id)
    return selector.stock_of(supply=found, on=_today(), ether_months=figures().ether_months)


def _today() -> date:
    return timezone.now().date()
