"""What is filled in to open a day for sittings."""

from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.forms import StudioForm
from bookings.diary.daylight import HIGHEST, LOWEST
from bookings.diary.models import Venue
from bookings.diary.services import Hours
from plates.bench.models import Bench

YEARS_AHEAD = 2


class OpenDayForm(StudioForm):
    """A day to open for sittings, on the venue's own clock."""

    venue = forms.ModelChoiceField(queryset=Venue.objects.all())
    bench = forms.ModelChoiceField(queryset=Bench.objects.all())
    on = forms.DateField(label=gettext_lazy("Date"), widget=forms.DateInput(attrs={"type": "date"}))
    opens = forms.TimeField(initial="10:00", widget=forms.TimeInput(attrs={"type": "time"}))
    closes = forms.TimeField(initial="18:00", widget=forms.TimeInput(attrs={"type": "time"}))
    racks_empty_by = forms.TimeField(
        initial="19:15",
        widget=forms.TimeInput(attrs={"type": "time"}),
        help_text=gettext_lazy("By then the last plate is out of the wash."),
    )
    start_every = forms.IntegerField(
        initial=15, min_value=1, max_value=240, label=gettext_lazy("Minutes between start times")
    )
    by_daylight = forms.BooleanField(
        required=False,
        label=gettext_lazy("Work by daylight"),
        help_text=gettext_lazy("Starts are then offered only while the sun stands high enough."),
    )
    sun_height = forms.DecimalField(
        label=gettext_lazy("Least height of the sun (degrees)"),
        initial=10,
        required=False,
        min_value=LOWEST,
        max_value=HIGHEST,
        max_digits=3,
        decimal_places=1,
        help_text=gettext_lazy(
            "Above a level horizon, which it is about to touch at 0. Counts for a day by daylight only."
        ),
    )

    def __init__(self, *args: Any, now: datetime, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.now = now

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if "venue" in cleaned and "on" in cleaned:
            self._refuse_far(cleaned["on"], self.now.astimezone(cleaned["venue"].tz).date())
        if cleaned.get("by_daylight") and cleaned.get("sun_height", 0) is None:
            self.add_error("sun_height", _("Say how high the sun has to stand, or leave daylight out."))
        return cleaned

    def _refuse_far(self, on: date, today: date) -> None:
        if on < today:
            self.add_error("on", _("That date has passed at the venue. Choose today or a later one."))
        # Compared part by part: two years after a 29 February there is none.
        elif (on.year - YEARS_AHEAD, on.month, on.day) > (today.year, today.month, today.day):
            self.add_error(
                "on",
                _("Days are opened at most {years_ahead} years ahead. Choose an earlier one.").format(
                    years_ahead=YEARS_AHEAD
                ),
            )

    def least_sun_height(self) -> Decimal | None:
        """Degrees that the sun has to stand at; None for a day that does not work by daylight."""
        return self.cleaned_data["sun_height"] if self.cleaned_data["by_daylight"] else None

    def hours(self) -> Hours:
        cleaned = self.cleaned_data
        return Hours(
            opens=cleaned["opens"],
            closes=cleaned["closes"],
            racks_empty_by=cleaned["racks_empty_by"],
            start_every=cleaned["start_every"],
        )
