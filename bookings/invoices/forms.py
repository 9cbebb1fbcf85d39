"""Whom an invoice is made out to, and what is taken back of one."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common import formats
from bookings.common.countries import countries
from bookings.common.forms import LabelledForm, StudioForm
from bookings.invoices.models import Invoice, InvoiceLine
from bookings.orders.models import Client, Order
from bookings.orders.services.clients import MadeOutTo

FIELDS = ("company", "address", "country", "tax_number")


class MadeOutToForm(StudioForm):
    """Company and address of the client as they will stand on the next invoice."""

    company = forms.CharField(
        max_length=120, required=False, help_text=gettext_lazy("Empty: it is made out to the client by name.")
    )
    address = forms.CharField(
        max_length=300, required=False, widget=forms.Textarea(attrs={"rows": 4, "autocomplete": "off"})
    )
    country = forms.ChoiceField(
        choices=lambda: [("", gettext_lazy("The same as the studio’s")), *countries().items()],
        required=False,
        help_text=gettext_lazy("Where the address is."),
    )
    tax_number = forms.CharField(
        max_length=40,
        required=False,
        help_text=gettext_lazy(
            "With the letters of the country in front, if it is one for value added tax: PT123456789."
        ),
    )

    def clean_address(self) -> str:
        return "\n".join(line.strip() for line in self.cleaned_data["address"].splitlines() if line.strip())

    def made_out_to(self) -> MadeOutTo:
        return MadeOutTo(**{name: self.cleaned_data[name] for name in FIELDS})


def made_out_to_initial(client: Client) -> dict[str, str]:
    """What is noted already."""
    return {name: getattr(client, name) for name in FIELDS}


class CreditForm(StudioForm):
    """The lines of an invoice that are taken back, and why."""

    lines = forms.MultipleChoiceField(
        label=gettext_lazy("What is taken back"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "invalid_choice": gettext_lazy("One of these lines has been taken back meanwhile. Look again.")
        },
    )
    reason = forms.CharField(max_length=200, help_text=gettext_lazy("Printed on the credit note."))

    def __init__(
        self, *args: Any, lines: Iterable[InvoiceLine], currency: str, locale: str, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        choices = [(str(line.pk), _told(line, currency, locale)) for line in lines]
        self.fields["lines"].choices = choices  # type: ignore[attr-defined]
        self.fields["lines"].initial = [key for key, _told_as in choices]
        self.fields["lines"].error_messages["required"] = _("Choose at least one line to take back.")

    def credit(self) -> dict[str, Any]:
        """What `credit_notes.issue` is to be told."""
        return {
            "line_ids": [int(key) for key in self.cleaned_data["lines"]],
            "reason": self.cleaned_data["reason"],
        }


def _told(line: InvoiceLine, currency: str, locale: str) -> str:
    amount = formats.amount(line.as_priced().gross, currency, locale)
    return f"{line.quantity} × {line.text}, {amount}" if line.quantity > 1 else f"{line.text}, {amount}"


class LookForm(LabelledForm):
    """Which paper, and the reason that is noted with it."""

    paper = forms.ModelChoiceField(
        label=gettext_lazy("Paper"),
        queryset=Invoice.objects.none(),
        empty_label=gettext_lazy("Choose its number"),
        error_messages={
            "required": gettext_lazy("Choose the paper that you want to look at."),
            "invalid_choice": gettext_lazy("Choose one of the papers that are kept here."),
        },
    )
    reason = forms.CharField(
        label=gettext_lazy("Why you look at it"),
        max_length=200,
        help_text=gettext_lazy(
            "It is noted with your name and cannot be taken back, for example: tax inspection 2031."
        ),
        error_messages={"required": gettext_lazy("Say why you look at it, such as a tax inspection.")},
    )

    def __init__(self, *args: Any, papers: QuerySet[Invoice], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["paper"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = papers.select_related("series").order_by("issued_on", "pk")


class InvoicesForm(StudioForm):
    """Which orders are to be invoiced at once."""

    # Every placed order is let through: one that was invoiced meanwhile is left out, or answered with a sentence.
    orders = forms.ModelMultipleChoiceField(
        queryset=Order.objects.placed(),
        widget=forms.CheckboxSelectMultiple,
    )
    by_mail = forms.BooleanField(required=False, label=gettext_lazy("And mail each invoice to its client"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["orders"].error_messages["required"] = _("Tick at least one order.")

    def order_ids(self) -> list[int]:
        return [order.pk for order in self.cleaned_data["orders"]]
