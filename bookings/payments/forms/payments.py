"""What the photographer fills in when money comes or goes back."""

from decimal import Decimal
from typing import Any
from uuid import uuid4

from babel.numbers import get_currency_precision
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.forms import StudioForm, amount_field
from bookings.money import Money
from bookings.payments.models import Method

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
