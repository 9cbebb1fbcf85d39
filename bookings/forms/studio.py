"""What the photographer fills in. Forms only make clean values; nothing here writes."""

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from uuid import uuid4

from babel.numbers import get_currency_precision
from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.daylight import HIGHEST, LOWEST
from bookings.forms.page import PageForm
from bookings.models import CancelCause, Method, Venue
from bookings.money import Money
from bookings.selectors.orders import Cancelling
from bookings.services.calendar import Hours
from plates.models import Bench, SpoiltReason
from plates.words import within

YEARS_AHEAD = 2
# The others are entered by the code of a voucher, by the card service's own message, and in practice only.
BY_HAND = (Method.CASH, Method.TRANSFER, Method.TERMINAL)


class StudioForm(PageForm):
    """A form whose complaints about empty fields name the field."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            # Repeated in the summary above the form, where it has to speak for itself.
            field.error_messages["required"] = _("Fill in: {label}.").format(
                label=within(field.label or "") if name in self.unlabelled else field.label
            )


class SignInForm(AuthenticationForm):
    """Django's own; only the focus is left to the page, which gives it to the summary when something is wrong."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].widget.attrs.pop("autofocus", None)


class SpoilForm(StudioForm):
    reason = forms.ChoiceField(choices=SpoiltReason.choices, widget=forms.RadioSelect)
    note = forms.CharField(max_length=200, required=False)


class CancelForm(StudioForm):
    """Who cancels; each choice says what it keeps, which the page shows beside it."""

    cause = forms.ChoiceField(label=gettext_lazy("Why is it cancelled?"), widget=forms.RadioSelect)
    kept = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, left: Sequence[Cancelling], **kwargs: Any) -> None:
        by_client = [each.kept for each in left if each.cause == CancelCause.CLIENT]
        only = left[0].cause if len(left) == 1 else None
        kwargs.setdefault("initial", {"kept": by_client[0] if by_client else None, "cause": only})
        super().__init__(*args, **kwargs)
        self.fields["cause"].choices = [(each.cause.value, each.cause.label) for each in left]  # type: ignore[attr-defined]

    def cancellation(self) -> dict[str, Any]:
        """What `sittings.cancel` is to be told; what was shown counts where something can be kept."""
        cause = CancelCause(self.cleaned_data["cause"])
        return {"cause": cause, "shown": self.cleaned_data["kept"] if cause == CancelCause.CLIENT else None}


class MoveForm(StudioForm):
    """Who asked for another time, and what the page said it would cost."""

    asked_by = forms.ChoiceField(
        label=gettext_lazy("Who asked for the change?"),
        choices=[
            ("client", gettext_lazy("The client")),
            ("studio", gettext_lazy("The studio asked for it: no charge")),
        ],
        widget=forms.RadioSelect,
        initial="client",
        required=False,
    )
    price = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def change(self) -> dict[str, Any]:
        """What `sittings.move` is to be told, of a form that was checked or not sent at all."""
        cleaned = self.cleaned_data if self.is_bound else {}
        by_client = cleaned.get("asked_by") != "studio"
        return {"by_client": by_client, "shown": cleaned.get("price") if by_client else None}


class PaymentForm(StudioForm):
    """Money received, or given back, in the currency of the order."""

    direction = forms.ChoiceField(
        choices=[("received", gettext_lazy("Received")), ("returned", gettext_lazy("Given back"))],
        widget=forms.RadioSelect,
        initial="received",
    )
    amount = forms.DecimalField()  # made anew below, for it hangs on the currency
    method = forms.ChoiceField(choices=[(method.value, method.label) for method in BY_HAND])
    reference = forms.CharField(
        max_length=64,
        required=False,
        help_text=gettext_lazy("From the bank or the terminal; empty for cash."),
    )
    note = forms.CharField(max_length=200, required=False)
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, currency: str, to_give_back: Money = 0, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places = get_currency_precision(currency)
        if to_give_back:
            self.initial = {"direction": "returned", "amount": Decimal(to_give_back).scaleb(-self.places)}
        self.fields["amount"] = amount_field(currency)
        self.fields["amount"].error_messages["required"] = _("Fill in: Amount ({currency}).").format(
            currency=currency
        )

    def clean_amount(self) -> int:
        """The amount in minor units of the order's currency."""
        return int(self.cleaned_data["amount"].scaleb(self.places))

    def payment(self) -> dict[str, Any]:
        """What `payments.record` is to be told. The hidden key makes a form that is sent twice one payment."""
        sign = -1 if self.cleaned_data["direction"] == "returned" else 1
        return {
            "amount": sign * self.cleaned_data["amount"],
            "method": Method(self.cleaned_data["method"]),
            "reference": self.cleaned_data["reference"].strip() or str(self.cleaned_data["key"]),
            "note": self.cleaned_data["note"],
        }


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


def amount_field(currency: str) -> forms.DecimalField:
    """A field for more than nothing in that currency, down to its smallest unit (ISO 4217: 0 to 4 places)."""
    places = get_currency_precision(currency)
    return sum_field(
        _("Amount ({currency})").format(currency=currency), places, least=Decimal(1).scaleb(-places)
    )


def sum_field(label: str, places: int, *, least: Decimal = Decimal(0), **facts: Any) -> forms.DecimalField:
    """A field for an amount with so many decimal places."""
    return forms.DecimalField(
        label=label,
        min_value=least,
        max_digits=9,
        decimal_places=places,
        error_messages={
            "max_decimal_places": _("This currency has {places} decimal places.").format(places=places)
        },
        **facts,
    )
