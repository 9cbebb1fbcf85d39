"""A recipe of the studio's own, line by line."""

from fractions import Fraction
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plates.chemistry.hazards.substances import SUBSTANCES
from plates.chemistry.quantities import Quantity
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.recipes.serialization import amount_from, plainly
from plates.chemistry.units import UNITS, unit
from plates.chemistry.values import ChemistryValueError
from plates.common.forms import StoreForm
from plates.common.words import translated
from plates.store.amounts import small
from plates.store.forms.batches import millilitres_field
from plates.store.models import OwnRecipe, Solution
from plates.store.services.recipes import RecipeDraft

MOST_LINES = 12
MOST_AMOUNT = 1_000_000
UNIT_CHOICES = [("", "–"), *((each.key, each.plural) for each in UNITS.values())]
IN_TABLE = [
    ("", _("not in the table of hazards")),
    ("water", _("water")),
    *((key, _(each.name)) for key, each in SUBSTANCES.items()),
]


class OwnRecipeForm(StoreForm):
    name = forms.CharField(label=_("Name"), max_length=80)
    kind = forms.ChoiceField(label=_("What it makes"), choices=Solution)
    makes = millilitres_field(
        _("Makes (mL)"), required=False, help_text=_("Empty: its liquids added up, as the old books do.")
    )
    notes = forms.CharField(label=_("Notes"), max_length=500, required=False)
    kept = forms.BooleanField(label=_("Offer it when a batch is mixed"), required=False, initial=True)


class LineForm(StoreForm):
    """One line: all of it empty is no line; a name without an amount is made up to the mark."""

    name = forms.CharField(label=_("What"), max_length=80, required=False)
    amount = forms.CharField(label=_("How much"), max_length=24, required=False)
    unit = forms.ChoiceField(label=_("Unit"), choices=UNIT_CHOICES, required=False)
    substance = forms.ChoiceField(label=_("In the table of hazards"), choices=IN_TABLE, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.disable_csrf = True  # the form around it has one

    def clean_amount(self) -> Fraction | None:
        if not (words := self.cleaned_data["amount"]):
            return None
        try:
            amount = amount_from(words)
        except ChemistryValueError as error:
            raise forms.ValidationError(translated(error)) from error
        if not 0 < amount <= MOST_AMOUNT:
            raise forms.ValidationError(_("An amount is above nothing and a million at the most."))
        return amount

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("amount") and not cleaned.get("unit"):
            self.add_error("unit", _("Choose a unit for this amount."))
        if (cleaned.get("amount") or cleaned.get("unit")) and not cleaned.get("name"):
            self.add_error("name", _("Say what this amount is of."))
        return cleaned

    def line(self) -> Ingredient | None:
        cleaned = self.cleaned_data
        if not cleaned.get("name"):
            return None
        amount = cleaned["amount"]
        taken = Quantity(amount, unit(cleaned["unit"])) if amount else None
        return Ingredient(
            cleaned["name"], taken, makes_up=taken is None, substance=cleaned.get("substance", "")
        )


LineFormSet = forms.formset_factory(
    LineForm, extra=0, min_num=MOST_LINES, max_num=MOST_LINES, absolute_max=MOST_LINES
)


def draft(form: OwnRecipeForm, lines: Any) -> RecipeDraft:
    """The clean values of both as the service takes them."""
    cleaned = form.cleaned_data
    return RecipeDraft(
        name=cleaned["name"],
        kind=cleaned["kind"],
        lines=[found for each in lines if (found := each.line())],
        makes_ul=None if cleaned["makes"] is None else small(cleaned["makes"], "ul"),
        notes=cleaned["notes"],
        kept=cleaned["kept"],
    )


def initial_of(row: OwnRecipe) -> dict[str, object]:
    makes = None if row.makes_ul is None else plainly(Fraction(row.makes_ul, 1000))
    return {"name": row.name, "kind": row.kind, "makes": makes, "notes": row.notes, "kept": row.kept}


def lines_initial(lines: tuple[Ingredient, ...]) -> list[dict[str, str]]:
    """The lines of a recipe as the form shows them."""
    return [
        {
            "name": line.name,
            "amount": plainly(line.quantity.amount) if line.quantity else "",
            "unit": line.quantity.unit.key if line.quantity else "",
            "substance": line.substance,
        }
        for line in lines
    ]
