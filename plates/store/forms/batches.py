"""What is filled in about recipes and batches."""

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plates.chemistry.recipes.scaling import Recipe
from plates.chemistry.stock.shelf import KEEPING
from plates.chemistry.units import UNITS
from plates.chemistry.values import figures
from plates.common.forms import StoreForm
from plates.store.amounts import small
from plates.store.models import Batch, BatchEvent, Ended, Solution
from plates.store.selectors.recipes import recipes
from plates.store.services.mixing import Mixing

MOST_ML = 100_000
VOLUME_UNITS = {"ml": _("mL"), "us_ounce": _("US fluid ounces"), "imperial_ounce": _("imperial fluid ounces")}
MEASURES = {
    "metric": _("grams and millilitres"),
    "US": _("grains, drachms and US ounces"),
    "imperial": _("grains, drachms and imperial ounces"),
}
OUNCES = {"": _("as it is printed"), "US": _("as US ounces"), "imperial": _("as imperial ounces")}
DAY = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")


def millilitres_field(label: Any, **more: Any) -> forms.DecimalField:
    """mL to the microlitre, above nothing unless said otherwise."""
    facts: dict[str, Any] = {
        "min_value": Decimal("0.001"),
        "max_value": MOST_ML,
        "max_digits": 9,
        "decimal_places": 3,
    }
    return forms.DecimalField(label=label, **(facts | more))


def grouped(found: dict[str, Recipe]) -> list[tuple[Any, list[tuple[str, str]]]]:
    """Recipes as the choices of a field, by kind."""
    return [
        (solution.label, [(ref, each.name) for ref, each in found.items() if each.kind == solution.value])
        for solution in Solution
    ]


class CalculatorForm(StoreForm):
    """Which recipe, in what volume, told in which measures."""

    recipe = forms.ChoiceField(label=_("Recipe"))
    volume = forms.DecimalField(
        label=_("How much to make"),
        min_value=Decimal("0.001"),
        max_value=MOST_ML,
        max_digits=9,
        decimal_places=3,
    )
    unit = forms.ChoiceField(label=_("In"), choices=VOLUME_UNITS)
    told = forms.ChoiceField(label=_("Weigh and measure in"), choices=MEASURES)
    ounces = forms.ChoiceField(
        label=_("Read the ounces of the recipe"),
        choices=OUNCES,
        required=False,
        help_text=_(
            "A US ounce is 4 % more than an imperial one. American books mean the first, British the other."
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.disable_csrf = True  # it is sent by GET: its address can be kept
        self.found = recipes()
        self.fields["recipe"].choices = grouped(self.found)  # type: ignore[attr-defined]

    @property
    def asked(self) -> Recipe:
        return self.found[self.cleaned_data["recipe"]]

    def volume_ml(self) -> Fraction:
        return Fraction(self.cleaned_data["volume"]) * UNITS[self.cleaned_data["unit"]].size

    def made(self) -> str:
        """The same to the microlitre, as it is typed where a batch is written down."""
        return figures(self.volume_ml(), 3)


class MixForm(StoreForm):
    """A batch that is written down. Days and label may be left empty: they follow from the kind."""

    recipe = forms.ChoiceField(label=_("Recipe"), required=False)
    kind = forms.ChoiceField(
        label=_("Kind, where no recipe is chosen"), choices=[("", "–"), *Solution.choices], required=False
    )
    made = millilitres_field(_("Volume made (mL)"))
    ounces = forms.ChoiceField(label=_("Ounces of the recipe were read"), choices=OUNCES, required=False)
    label = forms.CharField(
        label=_("Label on the bottle"), max_length=40, required=False, help_text=_("Empty: the next number.")
    )
    mixed_on = forms.DateField(label=_("Mixed on"), widget=DAY)
    ripe_from = forms.DateField(
        label=_("Ripe from"), required=False, widget=DAY, help_text=_("Empty: as is usual for its kind.")
    )
    best_before = forms.DateField(
        label=_("At its best until the day before"),
        required=False,
        widget=DAY,
        help_text=_("Empty: as is usual for its kind; a silver bath has no last day."),
    )
    silver = forms.DecimalField(
        label=_("Silver nitrate in a bath without a recipe (g)"),
        min_value=Decimal("0.001"),
        max_value=100_000,
        max_digits=9,
        decimal_places=3,
        required=False,
    )
    note = forms.CharField(label=_("Note"), max_length=500, required=False)
    draw = forms.BooleanField(label=_("Take what goes in from the shelves"), required=False)

    def __init__(self, *args: Any, latest: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.latest, self.found = latest, recipes()
        none = ("", _("None: bought, or mixed otherwise"))
        self.fields["recipe"].choices = [none, *grouped(self.found)]  # type: ignore[attr-defined]

    def clean_mixed_on(self) -> date:
        day: date = self.cleaned_data["mixed_on"]
        if day > self.latest:
            raise forms.ValidationError(_("A batch is written down when it was mixed, not before."))
        return day

    def clean_label(self) -> str:
        label: str = self.cleaned_data["label"]
        if label and Batch.objects.filter(label=label).exists():
            raise forms.ValidationError(
                _("Another batch is called %(label)s. Put another label on this one."),
                params={"label": label},
            )
        return label

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        recipe = self.found.get(cleaned.get("recipe", ""))
        cleaned["kind"] = recipe.kind if recipe else cleaned.get("kind", "")
        if not cleaned["kind"]:
            self.add_error("kind", _("Choose a recipe, or say what kind of solution it is."))
        elif cleaned.get("silver") and cleaned["kind"] != "bath":
            self.add_error("silver", _("Only a silver bath is made with silver nitrate."))
        elif cleaned.get("mixed_on"):
            self._days(cleaned)
        return cleaned

    def _days(self, cleaned: dict[str, Any]) -> None:
        """Fill in the days that follow from the kind, and look whether they are in order."""
        usual, mixed = KEEPING.get(cleaned["kind"]), cleaned["mixed_on"]
        ripe = cleaned.get("ripe_from") or mixed + timedelta(days=usual.ripe_after_days if usual else 0)
        best = cleaned.get("best_before") or (usual and mixed + timedelta(days=usual.best_for_days))
        if ripe < mixed:
            self.add_error("ripe_from", _("A batch is not ripe before it was mixed."))
        elif best and best <= ripe:
            self.add_error("best_before", _("A batch is past its best after it is ripe: look at the days."))
        cleaned["ripe_from"], cleaned["best_before"] = ripe, best

    def mixing(self, label: str) -> Mixing:
        """The clean values as the service takes them; `label` for one that was left empty."""
        cleaned = self.cleaned_data
        return Mixing(
            kind=cleaned["kind"],
            label=cleaned["label"] or label,
            made_ul=small(cleaned["made"], "ul"),
            mixed_on=cleaned["mixed_on"],
            ripe_from=cleaned["ripe_from"],
            best_before=cleaned["best_before"],
            recipe=cleaned["recipe"],
            ounces=cleaned["ounces"],
            silver_mg=None if cleaned["silver"] is None else small(cleaned["silver"], "mg"),
            note=cleaned["note"],
            draw=cleaned["draw"],
        )


class MoveForm(StoreForm):
    """What was taken out of a bottle, put to it, or found in it."""

    kind = forms.ChoiceField(label=_("What happened"), choices=BatchEvent.Kind)
    amount = millilitres_field(_("Volume (mL)"), min_value=0)
    note = forms.CharField(label=_("Note"), max_length=200, required=False)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("amount") == 0 and cleaned.get("kind") != BatchEvent.Kind.COUNTED:
            self.add_error("amount", _("Nothing was taken or added: only a count may find nothing."))
        return cleaned


class DaysForm(StoreForm):
    """From when a batch is ripe, until when it is at its best, when it was opened."""

    ripe_from = forms.DateField(label=_("Ripe from"), widget=DAY)
    best_before = forms.DateField(label=_("At its best until the day before"), required=False, widget=DAY)
    opened_on = forms.DateField(label=_("Opened on"), required=False, widget=DAY)


class EndForm(StoreForm):
    why = forms.ChoiceField(label=_("What became of it"), choices=Ended)
