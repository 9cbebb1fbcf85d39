"""What a client fills in behind a mailed link."""

from datetime import datetime
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.changes.selectors import Changes
from bookings.checkout.forms import parse_start
from bookings.common.country_codes import COUNTRIES
from bookings.common.forms import LabelledForm
from plates.bench.models import PlateSize


class MoveForm(LabelledForm):
    """A start time that was pressed, and what the page said the change would cost."""

    start = forms.CharField(max_length=60)
    price = forms.IntegerField(min_value=0)

    def clean_start(self) -> tuple[int, datetime]:
        try:
            return parse_start(self.cleaned_data["start"])
        except ValueError as error:
            raise ValidationError(str(error)) from error

    def move(self) -> dict[str, Any]:
        """What `sittings.move` is to be told."""
        day_id, starts_at = self.cleaned_data["start"]
        return {"day_id": day_id, "starts_at": starts_at, "shown": self.cleaned_data["price"]}


class CancelForm(LabelledForm):
    """Yes to what the page said would be kept."""

    kept = forms.IntegerField(min_value=0, widget=forms.HiddenInput)
    sure = forms.BooleanField(
        label=gettext_lazy("Cancel my sitting"),
        error_messages={"required": gettext_lazy("Tick the box if you want to cancel.")},
    )

    @classmethod
    def of(cls, changes: Changes | None) -> "CancelForm":
        """The form with what cancelling would cost now."""
        return cls(initial={"kept": changes.cancelling.kept if changes else 0})


class AddForm(LabelledForm):
    """The size of one more plate, as its button says it."""

    size = forms.ModelChoiceField(queryset=PlateSize.objects.filter(offered=True))


class PostForm(LabelledForm):
    """Where the plates are to be sent, instead of being collected."""

    address = forms.CharField(
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 3, "autocomplete": "street-address"}),
        error_messages={"required": gettext_lazy("Write where the plates are to go.")},
    )
    country = forms.CharField(
        label=gettext_lazy("Country (two letters)"),
        min_length=2,
        max_length=2,
        widget=forms.TextInput(attrs={"autocomplete": "country"}),
        error_messages={"required": gettext_lazy("Write the two letters of the country, such as PT.")},
    )

    def clean_country(self) -> str:
        country = str(self.cleaned_data["country"]).upper()
        if country not in COUNTRIES:
            raise ValidationError(_("Write the two letters of the country, such as PT."))
        return country
