"""What is filled in about a silver bath."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plates.bench.models import Bench
from plates.chemistry.bath.density import COOLEST, STRONGEST, WARMEST
from plates.chemistry.bath.strength import Strength
from plates.common.forms import StoreForm
from plates.store.amounts import small
from plates.store.forms.batches import millilitres_field
from plates.store.models import BathCare, BathReading
from plates.store.services.baths import Done, Reading

USUAL_STOCK = 300  # g/L
Kind = BathCare.Kind
POURED = {Kind.STOCK, Kind.WATER, Kind.POURED_OFF}
MAY_BE_POURED = POURED | {Kind.ACID, Kind.ALKALI}


def number(label: Any, least: str, most: str, places: int, **more: Any) -> forms.DecimalField:
    return forms.DecimalField(
        label=label,
        min_value=Decimal(least),
        max_value=Decimal(most),
        max_digits=9,
        decimal_places=places,
        required=False,
        **more,
    )


class ReadingForm(StoreForm):
    """What was measured. Everything may be left empty, but not all of it."""

    gravity = number(_("Specific gravity by hydrometer"), "0.9", "1.4", 4, help_text=_("For example 1.0640."))
    celsius = number(_("Warmth of the bath (°C)"), str(COOLEST), str(WARMEST), 1)
    scale = forms.ChoiceField(label=_("Scale of the hydrometer"), choices=BathReading.Scale)
    grains = number(_("Or: grains to the ounce by argentometer"), "0", "200", 1)
    ounce = forms.ChoiceField(
        label=_("Which ounce"), choices=[("", "–"), *BathReading.Ounce.choices], required=False
    )
    sample = number(_("Titration: sample (mL)"), "0.001", "1000", 3)
    titrant = number(_("Titration: thiocyanate used (mL)"), "0", "1000", 3)
    molar = number(_("Titration: its moles a litre"), "0.001", "10", 3, help_text=_("For example 0.1."))
    ph = number(_("Acidity (pH)"), "0", "14", 2)
    volume = millilitres_field(_("Volume of the bath (mL)"), required=False)
    read_note = forms.CharField(label=_("Note on the reading"), max_length=200, required=False)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        given = {name for name, value in cleaned.items() if value is not None and value != ""}
        if not given & {"gravity", "grains", "titrant", "ph", "volume"} and not self.errors:
            raise forms.ValidationError(_("A reading reads something: fill in at least one measurement."))
        if "gravity" in given and "celsius" not in given and "celsius" not in self.errors:
            self.add_error("celsius", _("A hydrometer needs the warmth of the bath with it."))
        if ("grains" in given) is not ("ounce" in given) and "grains" not in self.errors:
            self.add_error("ounce", _("Grains to the ounce need which ounce, US or imperial."))
        titration = {"sample", "titrant", "molar"}
        if 0 < len(given & titration) < 3 and not titration & set(self.errors):
            lacking = next(name for name in ("sample", "titrant", "molar") if name not in given)
            self.add_error(
                lacking, _("A titration needs the sample, the thiocyanate used and how strong it is.")
            )
        return cleaned

    def reading(self) -> Reading:
        """The clean values as the service takes them."""
        cleaned = self.cleaned_data
        floated = cleaned["gravity"] is not None
        return Reading(
            gravity_e4=_times(cleaned["gravity"], 10_000),
            scale=cleaned["scale"] if floated else "",
            celsius_tenths=_times(cleaned["celsius"], 10) if floated else None,
            grains_tenths=_times(cleaned["grains"], 10),
            ounce=cleaned["ounce"],
            sample_ul=_times(cleaned["sample"], 1000),
            titrant_ul=_times(cleaned["titrant"], 1000),
            titrant_mmol_l=_times(cleaned["molar"], 1000),
            ph_hundredths=_times(cleaned["ph"], 100),
            volume_ul=_times(cleaned["volume"], 1000),
            note=cleaned["read_note"],
        )


class CareForm(StoreForm):
    """What was done to a bath."""

    kind = forms.ChoiceField(label=_("What was done"), choices=Kind)
    bench = forms.ModelChoiceField(label=_("At which bench"), queryset=Bench.objects.all(), required=False)
    salt = number(_("Silver nitrate, dry (g)"), "0.001", "100000", 3)
    poured = millilitres_field(_("Poured in, or off (mL)"), required=False)
    stock = number(_("Strength of the stock (g/L)"), "0.001", str(int(STRONGEST)), 3)
    note = forms.CharField(label=_("Note"), max_length=200, required=False)

    def clean(self) -> dict[str, Any]:
        """What the database would refuse, in words beside the field."""
        cleaned = super().clean() or {}
        kind = cleaned.get("kind", "")
        self._only(
            "bench", kind == Kind.IN_USE, _("A bath is put to use at a bench, and only then is one named.")
        )
        self._only(
            "salt", kind == Kind.SALT, _("Dry salt is weighed, and only then: say how many grams were added.")
        )
        self._only(
            "stock", kind == Kind.STOCK, _("A stock solution, and only that, needs its strength in g/L.")
        )
        poured = _("What is poured is measured, and only that: say how many millilitres.")
        if kind in POURED or kind not in MAY_BE_POURED:
            self._only("poured", kind in POURED, poured)
        return cleaned

    def _only(self, name: str, wanted: bool, sentence: Any) -> None:
        """Complain where a field is filled in that is not wanted, or left empty that is."""
        if name not in self.errors and (self.cleaned_data.get(name) is not None) is not wanted:
            self.add_error(name, sentence)

    def done(self) -> Done:
        """The clean values as the service takes them."""
        cleaned = self.cleaned_data
        return Done(
            kind=cleaned["kind"],
            bench_id=cleaned["bench"].pk if cleaned["bench"] else None,
            salt_mg=None if cleaned["salt"] is None else small(cleaned["salt"], "mg"),
            poured_ul=None if cleaned["poured"] is None else small(cleaned["poured"], "ul"),
            stock_mg_l=_times(cleaned["stock"], 1000),
            note=cleaned["note"],
        )


class StockForm(StoreForm):
    """How strong the stock solution is with which a bath is brought back."""

    stock_strength = number(
        _("Strength of your stock (g/L)"), "1", str(int(STRONGEST)), 1, initial=USUAL_STOCK
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.disable_csrf = True  # it is sent by GET: its address can be kept

    def strength(self) -> Strength:
        """What was asked for, or what is usual."""
        asked = self.cleaned_data.get("stock_strength") if self.is_valid() else None
        return Strength(Fraction(asked or USUAL_STOCK))


def _times(value: Decimal | None, factor: int) -> int | None:
    return None if value is None else int(value * factor)
