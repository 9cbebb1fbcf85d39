"""What the photographer fills in when the cash box is counted."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import uuid4

from babel.numbers import get_currency_precision
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.formats import amount
from bookings.common.forms import LabelledForm, StudioForm, amount_field, sum_field
from bookings.money import Money
from bookings.payments.models import CashUp, Method
from bookings.payments.selectors import CashBox


class TakingsForm(LabelledForm):
    """The date of which the takings are looked at."""

    on = forms.DateField(label=gettext_lazy("Takings of"), widget=forms.DateInput(attrs={"type": "date"}))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.disable_csrf = True  # it is only read, and its token would stand in the address

    def clean_on(self) -> date:
        on: date = self.cleaned_data["on"]
        if not 2000 <= on.year < 2200:
            raise forms.ValidationError(_("Choose a date from 2000 to 2199."))
        return on


class CashUpForm(StudioForm):
    """The box as it was counted. A difference is asked about before it is kept."""

    counted = forms.DecimalField()  # the sums are made anew below, for they hang on the currency
    put_in = forms.DecimalField()
    taken_out = forms.DecimalField()
    note = forms.CharField(max_length=200, required=False)
    after = forms.IntegerField(widget=forms.HiddenInput, required=False)
    came_in = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, box: CashBox, **kwargs: Any) -> None:
        after = box.last.pk if box.last else None
        super().__init__(*args, initial={"after": after, "came_in": box.came_in}, **kwargs)
        self.box, self.places = box, get_currency_precision(box.currency)
        labels = {
            "counted": _("Counted ({currency})").format(currency=box.currency),
            "put_in": _("Change put in ({currency})").format(currency=box.currency),
            "taken_out": _("Taken out, to the bank ({currency})").format(currency=box.currency),
        }
        for name, label in labels.items():
            field = sum_field(label, self.places, required=name == "counted")
            field.error_messages["required"] = _("Fill in: {label}.").format(label=label)
            self.fields[name] = field

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if not self.errors and self.difference and not cleaned["note"].strip():
            found = (
                _("The box holds {sum} less than it should. Count again, or say here what you know of it.")
                if self.difference < 0
                else _(
                    "The box holds {sum} more than it should. Count again, or say here what you know of it."
                )
            )
            self.add_error("note", found.format(sum=amount(abs(self.difference), self.box.currency)))
        return cleaned

    @property
    def put_in_less_taken_out(self) -> Money:
        return self._minor("put_in") - self._minor("taken_out")

    @property
    def difference(self) -> Money:
        """Counted, less what should be there."""
        return self._minor("counted") - self.box.expected(self.put_in_less_taken_out)

    def count(self) -> dict[str, Any]:
        """What `cash.count` is to be told; `shown` is the box that the page showed, not the one of now."""
        after, came_in = self.cleaned_data["after"], self.cleaned_data["came_in"]
        last = CashUp.objects.filter(pk=after).first() if after else None
        return {
            "counted": self._minor("counted"),
            "put_in": self.put_in_less_taken_out,
            "note": self.cleaned_data["note"].strip(),
            "shown": replace(self.box, last=last, came_in=came_in),
        }

    def _minor(self, name: str) -> Money:
        return int((self.cleaned_data[name] or 0) * 10**self.places)


# The others are entered by the code of a voucher, by the card service's own message, and in practice only.
BY_HAND = (Method.CASH, Method.TRANSFER, Method.TERMINAL)


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
