"""The recipe calculator, and the studio's own recipes. Numbers only, no client's name."""

from django.contrib import messages
from django.forms import BaseFormSet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from plates.chemistry.recipes.metric_twins import SCANNED
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.recipes.serialization import load
from plates.chemistry.values import ChemistryValueError
from plates.common.access import photographer
from plates.common.words import translated
from plates.errors import StoreRefused
from plates.store.forms.batches import CalculatorForm
from plates.store.forms.recipes import LineForm, LineFormSet, OwnRecipeForm, draft, initial_of, lines_initial
from plates.store.models import OwnRecipe
from plates.store.selectors import recipes as selector
from plates.store.selectors.supplies import figures
from plates.store.services import recipes as service

Lines = BaseFormSet[LineForm]


@photographer
@require_safe
def calculator(request: HttpRequest) -> HttpResponse:
    """A recipe made in any volume, in the measures that are at hand."""
    form = CalculatorForm(request.GET if "recipe" in request.GET else None, initial={"volume": 1000})
    found = _calculated(form) if form.is_valid() else None
    own = OwnRecipe.objects.all()
    context = {"form": form, "found": found, "own": own, "scanned": SCANNED}
    if found:
        context["made"] = form.made()
    return render(request, "plates/store/recipes.html", context, status=400 if form.errors else 200)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def new_recipe(request: HttpRequest) -> HttpResponse:
    """Write a recipe of the studio's own down, begun from a printed one with `?from=`."""
    begun = selector.recipe_of(ref=request.GET.get("from", ""))
    if request.method != "POST":
        lines = begun.ingredients if begun else ()
        kind = {"name": "", "kind": begun.kind} if begun else None
        return _page(request, OwnRecipeForm(initial=kind), _lines(lines))
    return _kept(request, None)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def own_recipe(request: HttpRequest, recipe_id: int) -> HttpResponse:
    """Change a recipe of the studio's own; batches keep what went into them."""
    row = get_object_or_404(OwnRecipe, pk=recipe_id)
    if request.method != "POST":
        return _page(request, OwnRecipeForm(initial=initial_of(row)), _lines(load(row.lines)), row)
    return _kept(request, row)


def _kept(request: HttpRequest, row: OwnRecipe | None) -> HttpResponse:
    form, lines = OwnRecipeForm(request.POST), LineFormSet(request.POST, prefix="line")
    if form.is_valid() and lines.is_valid():
        try:
            service.save_recipe(told=draft(form, lines), recipe_id=row.pk if row else None)
        except StoreRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("Kept: %(name)s.") % {"name": form.cleaned_data["name"]})
            return redirect("plates:recipes")
    return _page(request, form, lines, row, status=400)


def _lines(lines: tuple[Ingredient, ...]) -> Lines:
    return LineFormSet(initial=lines_initial(lines), prefix="line")


def _page(
    request: HttpRequest, form: OwnRecipeForm, lines: Lines, row: OwnRecipe | None = None, status: int = 200
) -> HttpResponse:
    context = {"form": form, "lines": lines, "row": row}
    return render(request, "plates/store/own_recipe.html", context, status=status)


def _calculated(form: CalculatorForm) -> selector.Calculated | None:
    """What to take; the refusal goes onto the form."""
    try:
        return selector.calculated(
            recipe=form.asked,
            volume_ml=form.volume_ml(),
            told=form.cleaned_data["told"],
            ounces=form.cleaned_data["ounces"],
            cyanide=figures().cyanide(),
        )
    except ChemistryValueError as refusal:
        form.add_error(None, translated(refusal))
        return None
