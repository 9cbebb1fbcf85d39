"""The public holidays that are proposed as closed days. Nothing here writes."""

from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.common.forms import StudioForm
from bookings.handover.public_holidays import public_holidays

YEARS_AHEAD = 2


class HolidaysForm(StudioForm):
    """Which of the public holidays of a year the studio keeps."""

    year = forms.IntegerField(min_value=2000, max_value=2999)
    days = forms.MultipleChoiceField(label=_("Public holidays"))

    def __init__(self, data: Mapping[str, Any], *, country: str, locale: str) -> None:
        super().__init__(data)
        self.known = public_holidays(country, self.asked_year(data, 2000), locale)
        self.fields["days"].choices = [(on.isoformat(), why) for on, why in self.known.items()]  # type: ignore[attr-defined]

    @staticmethod
    def asked_year(data: Mapping[str, Any], this: int) -> int:
        """The year asked for, if it can be one."""
        year = str(data.get("year", ""))
        return int(year) if year.isdecimal() and len(year) == 4 and 2000 <= int(year) <= 2999 else this

    @staticmethod
    def left(proposed: Mapping[date, str], closed: Collection[date]) -> dict[date, str]:
        """Those that are not closed yet."""
        return {on: why for on, why in proposed.items() if on not in closed}

    def days_kept(self) -> dict[date, str]:
        """The ticked days, each with its name."""
        return {on: why for on, why in self.known.items() if on.isoformat() in self.cleaned_data["days"]}
