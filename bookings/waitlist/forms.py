"""What is filled in to wait for a place."""

from datetime import time
from typing import Any
from uuid import uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.forms import LabelledForm
from bookings.diary.models import SittingDay
from bookings.diary.services import instant
from bookings.waitlist.services import Request


class DayForm(forms.Form):
    """Which day is waited for: one that can be booked."""

    day = forms.ModelChoiceField(queryset=SittingDay.objects.none())

    def __init__(self, *args: Any, days: list[SittingDay], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["day"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = SittingDay.objects.filter(pk__in=[day.pk for day in days]).select_related(
            "venue", "bench_day__bench__largest_size"
        )


class WaitForm(LabelledForm):
    """Who waits, and between which starts on the clock of the venue."""

    name = forms.CharField(
        label=gettext_lazy("Name"),
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
        error_messages={"required": gettext_lazy("Write your name.")},
    )
    email = forms.EmailField(
        label=gettext_lazy("Email"),
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        help_text=gettext_lazy("A time that becomes free is offered to you there."),
        error_messages={
            "required": gettext_lazy("Write the address that your letters go to."),
            "invalid": gettext_lazy("Write an address such as name@example.org."),
        },
    )
    earliest = forms.TimeField(
        label=gettext_lazy("Start not before"),
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
        error_messages=dict.fromkeys(
            ("required", "invalid"), gettext_lazy("Write the first hour that suits you, such as 10:00.")
        ),
    )
    latest = forms.TimeField(
        label=gettext_lazy("Start not after"),
        widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
        error_messages=dict.fromkeys(
            ("required", "invalid"), gettext_lazy("Write the last hour that suits you, such as 15:30.")
        ),
    )
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, day: SittingDay, **kwargs: Any) -> None:
        hours = {"earliest": day.local(day.bench_day.opens_at), "latest": day.local(day.bench_day.closes_at)}
        kwargs["initial"] = {name: f"{at:%H:%M}" for name, at in hours.items()} | kwargs.get("initial", {})
        super().__init__(*args, **kwargs)
        self.day = day

    def clean_name(self) -> str:
        return " ".join(str(self.cleaned_data["name"]).split())

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if {"earliest", "latest"} <= cleaned.keys():
            for name in ("earliest", "latest"):
                cleaned[name] = self._instant(name, cleaned[name])
            if not self.errors and cleaned["latest"] < cleaned["earliest"]:
                self.add_error("latest", _("The last hour comes before the first one."))
        return cleaned

    def asked(self) -> Request:
        """The answers of a valid form."""
        given = self.cleaned_data
        return Request(
            name=given["name"], email=given["email"], earliest=given["earliest"], latest=given["latest"]
        )

    def _instant(self, name: str, at: time) -> Any:
        """An hour of the day as an instant; a time that the clock skips is said at its field."""
        try:
            return instant(self.day.bench_day.on, at, self.day.venue.tz)
        except ValidationError as error:
            self.add_error(name, error)
            return None
