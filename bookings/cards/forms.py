"""Giving money back to a card."""

from decimal import Decimal
from typing import Any
from uuid import uuid4

from babel.numbers import get_currency_precision
from django import forms
from django.utils.translation import gettext as _

from bookings.cards.models import Received
from bookings.common.forms import StudioForm, amount_field


class RefundForm(StudioForm):
    """How much of what came by card goes back to it; the hidden key makes a form that is sent twice one giving back."""

    amount = forms.DecimalField()  # made anew below, for it hangs on the currency
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, came: Received, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places = get_currency_precision(came.page.currency)
        self.fields["amount"] = amount_field(came.page.currency)
        self.fields["amount"].error_messages["required"] = _("Fill in: Amount ({currency}).").format(
            currency=came.page.currency
        )
        self.fields["amount"].initial = Decimal(came.left).scaleb(-self.places)

    def clean_amount(self) -> int:
        """The amount in minor units of the payment's currency."""
        return int(self.cleaned_data["amount"].scaleb(self.places))
