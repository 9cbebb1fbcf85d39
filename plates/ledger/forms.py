"""What is filled in about plates."""

from typing import Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from plates.bench.models import PlateFacts, PlateSize, SpoiltReason, Stage
from plates.bench.models.facts import LONGEST_SECONDS, SHORTEST_EXPOSURE
from plates.common.forms import StoreForm
from plates.ledger import pictures
from plates.ledger.selectors import Wanted
from plates.ledger.services.facts import Noted

FACTS = tuple(Noted.__dataclass_fields__)


class FactsForm(StoreForm):
    """What an operator notes about a plate. Everything may be left empty."""

    batch = forms.CharField(
        label=gettext_lazy("Batch of collodion"),
        max_length=40,
        required=False,
        widget=forms.TextInput(attrs={"list": "labels-collodion"}),
    )
    bath = forms.CharField(
        label=gettext_lazy("Silver bath"),
        max_length=40,
        required=False,
        widget=forms.TextInput(attrs={"list": "labels-bath"}),
    )
    bath_seconds = forms.IntegerField(
        label=gettext_lazy("Seconds in the bath"), min_value=1, max_value=LONGEST_SECONDS, required=False
    )
    exposure_seconds = forms.DecimalField(
        label=gettext_lazy("Exposure (seconds)"),
        min_value=SHORTEST_EXPOSURE,
        max_value=LONGEST_SECONDS,
        max_digits=7,
        decimal_places=3,
        required=False,
        help_text=gettext_lazy("As you counted it, for example 4.5. Nothing works it out for you."),
    )
    lens = forms.CharField(label=gettext_lazy("Lens"), max_length=80, required=False)
    developer_seconds = forms.IntegerField(
        label=gettext_lazy("Seconds in the developer"), min_value=1, max_value=LONGEST_SECONDS, required=False
    )
    notes = forms.CharField(
        label=gettext_lazy("Notes"), max_length=2000, required=False, widget=forms.Textarea(attrs={"rows": 4})
    )

    def noted(self) -> Noted:
        """The clean values as the service takes them."""
        return Noted(**{name: self.cleaned_data[name] for name in FACTS})


class PictureForm(StoreForm):
    picture = forms.FileField(
        label=gettext_lazy("Scan or photo of the plate"),
        widget=forms.ClearableFileInput(attrs={"accept": "image/jpeg,image/png,image/webp"}),
        help_text=format_lazy(
            gettext_lazy(
                "JPEG, PNG or WebP, at most {most} MB. Place, time and whatever else the camera wrote into it "
                "are taken out."
            ),
            most=pictures.MOST_BYTES // 1_000_000,
        ),
        error_messages={
            "required": gettext_lazy("Choose a picture first."),
            "empty": gettext_lazy("That file is empty. Choose another one."),
        },
    )

    def clean_picture(self) -> bytes:
        """The content, as long as it is no larger than can be taken in."""
        sent = self.cleaned_data["picture"]
        if sent.size > pictures.MOST_BYTES:
            raise forms.ValidationError(pictures.too_heavy())
        return bytes(sent.read())


def facts_initial(facts: PlateFacts | None) -> dict[str, object]:
    """What the form shows of the facts noted so far."""
    if facts is None:
        return {}
    noted = {name: getattr(facts, name) for name in FACTS}
    exposure = facts.exposure_seconds
    # The database keeps three places; shown are those that were noted.
    return noted | {"exposure_seconds": None if exposure is None else f"{exposure.normalize():f}"}


class SearchForm(StoreForm):
    """Which plates of the ledger to show. Everything may be left empty."""

    number = forms.IntegerField(
        label=gettext_lazy("Plate number"), min_value=1, max_value=2**31 - 1, required=False
    )
    size = forms.ModelChoiceField(
        label=gettext_lazy("Size"),
        queryset=PlateSize.objects.all(),
        required=False,
        empty_label=gettext_lazy("Any size"),
    )
    stage = forms.ChoiceField(
        label=gettext_lazy("Stage"), choices=[("", gettext_lazy("Any stage")), *Stage.choices], required=False
    )
    reason = forms.ChoiceField(
        label=gettext_lazy("Spoilt because"),
        choices=[("", gettext_lazy("Any reason, or none")), *SpoiltReason.choices],
        required=False,
    )
    since = forms.DateField(
        label=gettext_lazy("Days from"), required=False, widget=forms.DateInput(attrs={"type": "date"})
    )
    until = forms.DateField(
        label=gettext_lazy("Days up to"), required=False, widget=forms.DateInput(attrs={"type": "date"})
    )
    batch = forms.CharField(label=gettext_lazy("Batch of collodion"), max_length=40, required=False)
    bath = forms.CharField(label=gettext_lazy("Silver bath"), max_length=40, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.disable_csrf = True  # it is sent by GET: its address can be kept

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        since, until = cleaned.get("since"), cleaned.get("until")
        if since and until and until < since:
            self.add_error("until", _("These days end before they begin. Choose a later date."))
        return cleaned

    def wanted(self) -> Wanted:
        """The clean values as the selector takes them."""
        return Wanted(**self.cleaned_data)
