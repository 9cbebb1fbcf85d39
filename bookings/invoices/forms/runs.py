"""Which orders are to be invoiced at once."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.forms import StudioForm
from bookings.orders.models import Order


class InvoicesForm(StudioForm):
    """Which orders are to be invoiced at once."""

    # Every placed order is let through: one that was invoiced meanwhile is left out, or answered with a sentence.
    orders = forms.ModelMultipleChoiceField(
        queryset=Order.objects.filter(placed_at__isnull=False),
        widget=forms.CheckboxSelectMultiple,
    )
    by_mail = forms.BooleanField(required=False, label=gettext_lazy("And mail each invoice to its client"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["orders"].error_messages["required"] = _("Tick at least one order.")

    def order_ids(self) -> list[int]:
        return [order.pk for order in self.cleaned_data["orders"]]
