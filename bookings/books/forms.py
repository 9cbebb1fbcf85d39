"""What is filled in on the pages of the books."""

from datetime import date
from typing import Any
from uuid import uuid4

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.books.selectors.journal import Period
from bookings.common.forms import FIRST_YEAR, LAST_YEAR, StudioForm


class SettleForm(StudioForm):
    """A transfer that has come for an invoice."""

    reference = forms.CharField(max_length=64, required=False)
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def paid_under(self) -> str:
        """The bank's reference, or the form's own key: sent twice it is one payment."""
        return self.cleaned_data["reference"].strip() or str(self.cleaned_data["key"])


class PeriodForm(StudioForm):
    """From a day to a day, both counted in."""

    since = forms.DateField(
        label=gettext_lazy("From"), widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})
    )
    until = forms.DateField(
        label=gettext_lazy("Up to and with"),
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.disable_csrf = True  # it is sent by GET: its address can be kept
        for name, field in self.fields.items():
            field.error_messages["invalid"] = _("{label}: choose a date, for example 2026-11-28.").format(
                label=field.label or name
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for name in ("since", "until"):
            if name in cleaned and not FIRST_YEAR <= cleaned[name].year <= LAST_YEAR:
                self.add_error(
                    name,
                    _("Choose a date between the years {first_year} and {last_year}.").format(
                        first_year=FIRST_YEAR, last_year=LAST_YEAR
                    ),
                )
        if "since" in cleaned and "until" in cleaned and cleaned["until"] < cleaned["since"]:
            self.add_error("until", _("These days end before they begin. Choose a later date."))
        return cleaned

    def period(self) -> Period:
        return Period(since=self.cleaned_data["since"], until=self.cleaned_data["until"])


def last_quarter(today: date) -> Period:
    """The quarter of the year before the one that today lies in: what an accountant is usually sent."""
    month = today.month - (today.month - 1) % 3
    begins = date(today.year, month, 1)
    ended = date.fromordinal(begins.toordinal() - 1)
    return Period(since=date(ended.year, ended.month - 2, 1), until=ended)
