"""What is filled in about waste, fire and fixers."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plates.common.forms import StoreForm
from plates.store.amounts import small
from plates.store.forms.batches import DAY, millilitres_field
from plates.store.models import Batch, Solution, WasteContainer, WasteEntry
from plates.store.services.waste import Disposal

MOST_FIRE_ML = 1_000_000


class ContainerForm(StoreForm):
    """A container to be marked."""

    label = forms.CharField(label=_("Label on the container"), max_length=40, help_text=_("For example W 3."))
    holds = forms.ChoiceField(label=_("Kind of waste"), choices=WasteContainer.Kind)


class WasteForm(StoreForm):
    """A line of the log: put in, with what it is, or collected, with who collected it."""

    container = forms.ModelChoiceField(
        label=_("Container"), queryset=WasteContainer.objects.filter(kept=True), empty_label=None
    )
    kind = forms.ChoiceField(label=_("What happened"), choices=WasteEntry.Kind)
    amount = millilitres_field(_("Volume (mL)"))
    on = forms.DateField(label=_("On"), widget=DAY)
    what = forms.CharField(
        label=_("What it is"), max_length=80, required=False, help_text=_("For example used fixer.")
    )
    service = forms.CharField(
        label=_("Licensed service"), max_length=120, required=False, help_text=_("Who collected it.")
    )
    note = forms.CharField(label=_("Note"), max_length=200, required=False)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        kept = cleaned.get("kind") == WasteEntry.Kind.KEPT
        if kept and not cleaned.get("what"):
            self.add_error("what", _("Say what was put into it."))
        if kept and cleaned.get("service"):
            self.add_error("service", _("A service is named when it collects: leave this empty."))
        if cleaned.get("kind") == WasteEntry.Kind.COLLECTED and not cleaned.get("service"):
            self.add_error("service", _("Say which licensed service collected it."))
        return cleaned

    def disposal(self) -> Disposal:
        """The clean values as the service takes them."""
        cleaned = self.cleaned_data
        words = {name: cleaned[name] for name in ("kind", "on", "what", "service", "note")}
        return Disposal(amount_ul=small(cleaned["amount"], "ul"), **words)


class FireForm(StoreForm):
    """The studio's own figure."""

    fire_limit = forms.IntegerField(
        label=_("Most ether, alcohol, collodion and varnish to keep (mL)"),
        min_value=0,
        max_value=MOST_FIRE_ML,
        required=False,
        help_text=_("What your fire code, landlord or insurer allows where you work. Empty: no figure."),
    )


class ClearingForm(StoreForm):
    """Seconds until a plate was clear."""

    fixer = forms.ModelChoiceField(
        label=_("Fixer"),
        queryset=Batch.objects.filter(kind=Solution.FIXER, ended_at__isnull=True),
        empty_label=None,
    )
    seconds = forms.IntegerField(label=_("Seconds until a plate was clear"), min_value=1, max_value=3600)
