"""What is filled in to give a voucher and to use one."""

from decimal import Decimal
from typing import Any
from uuid import uuid4

from babel.numbers import get_currency_precision
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common import formats
from bookings.common.forms import LabelledForm
from bookings.studio.models import Studio
from bookings.vouchers.models import Voucher
from bookings.vouchers.selectors import VoucherPart
from bookings.vouchers.services.selling import Gift

MOST_DIGITS = 9
LONGEST_CODE = 40  # as it is typed, with dashes and spaces


class GiftForm(LabelledForm):
    """A sum, who gives it to whom, and the words that go with it."""

    amount = forms.DecimalField()  # made anew below, for it hangs on the currency and the studio's bounds
    buyer_name = forms.CharField(
        label=gettext_lazy("Your name"),
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
        error_messages={"required": gettext_lazy("Write your name.")},
    )
    buyer_email = forms.EmailField(
        label=gettext_lazy("Your email"),
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        error_messages={
            "required": gettext_lazy("Write the address that the voucher goes to."),
            "invalid": gettext_lazy("Write an address such as name@example.org."),
        },
        help_text=gettext_lazy("The voucher is sent here once it is paid for."),
    )
    for_name = forms.CharField(label=gettext_lazy("For whom (if you like)"), max_length=120, required=False)
    message = forms.CharField(
        label=gettext_lazy("A few words to go with it (if you like)"),
        max_length=300,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, studio: Studio, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places = get_currency_precision(studio.currency)
        self.fields["amount"] = _worth(studio, self.places)
        self.order_fields(["amount", "buyer_name", "buyer_email", "for_name", "message"])

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        for name in ("buyer_name", "for_name", "message"):
            cleaned[name] = " ".join(str(cleaned.get(name, "")).split())
        return cleaned

    def gift(self) -> Gift:
        """What a valid form asks for, its sum in minor units."""
        cleaned = self.cleaned_data
        return Gift(
            amount=int(cleaned["amount"].scaleb(self.places)),
            buyer_name=cleaned["buyer_name"],
            buyer_email=cleaned["buyer_email"],
            for_name=cleaned["for_name"],
            message=cleaned["message"],
        )


class DeskGiftForm(GiftForm):
    """The same, filled in by the photographer for whoever stands at the desk."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, label in (("buyer_name", _("Name of the buyer")), ("buyer_email", _("Email of the buyer"))):
            self.fields[name].label = label
            self.fields[name].widget.attrs["autocomplete"] = "off"
        self.fields["buyer_name"].error_messages["required"] = _("Write the name of the buyer.")


class CodeForm(LabelledForm):
    """The code of a voucher. Its fields have ids of their own, for it stands beside other forms."""

    code = forms.CharField(
        label=gettext_lazy("Voucher code"),
        max_length=LONGEST_CODE,
        widget=forms.TextInput(
            attrs={"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false"}
        ),
        error_messages={"required": gettext_lazy("Type the code that stands on the voucher.")},
        help_text=gettext_lazy("As it stands on the paper, such as ABCD-EFGH-JKMN."),
    )
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, auto_id="voucher_%s", **kwargs)


class DeskCodeForm(CodeForm):
    """The code, and how much of it where it is not to pay all that it covers."""

    at_most = forms.DecimalField()  # made anew below

    def __init__(self, *args: Any, currency: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places = get_currency_precision(currency)
        self.fields["at_most"] = _sum(
            _("At most ({currency})").format(currency=currency), self.places, required=False
        )
        self.fields["at_most"].help_text = _("Empty: as much as it covers.")

    def amount_in_minor(self) -> int | None:
        """The sum in minor units, None for as much as the voucher covers."""
        typed: Decimal | None = self.cleaned_data["at_most"]
        return None if typed is None else int(typed.scaleb(self.places))


class RefundForm(LabelledForm):
    """How much of an order goes back to a voucher."""

    back = forms.DecimalField()  # made anew below
    voucher = forms.ModelChoiceField(Voucher.objects.all(), widget=forms.HiddenInput)
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, currency: str, number: int = 1, **kwargs: Any) -> None:
        super().__init__(*args, auto_id=f"back_{number}_%s", **kwargs)
        self.places = get_currency_precision(currency)
        self.fields["back"] = _sum(_("Amount ({currency})").format(currency=currency), self.places)

    @classmethod
    def of(cls, part: VoucherPart, *, overpaid: int, number: int) -> "RefundForm":
        """The form for what one voucher has paid, offering what is too much of it, or all where nothing is."""
        currency = part.voucher.currency
        offered = Decimal(min(part.paid, overpaid or part.paid)).scaleb(-get_currency_precision(currency))
        initial = {"back": offered, "voucher": part.voucher.pk}
        return cls(currency=currency, number=number, initial=initial)

    def amount_in_minor(self) -> int:
        """The sum in minor units."""
        return int(self.cleaned_data["back"].scaleb(self.places))


def _sum(label: str, places: int, **more: Any) -> forms.DecimalField:
    """A field for money in units of its currency, above nothing."""
    sentences = {
        "required": _("Fill in: {label}.").format(label=label),
        "max_decimal_places": _("This currency has {places} decimal places.").format(places=places),
    }
    facts: dict[str, Any] = {
        "min_value": Decimal(1).scaleb(-places),
        "max_digits": MOST_DIGITS,
        "decimal_places": places,
    }
    sentences |= more.pop("error_messages", {})
    return forms.DecimalField(label=label, error_messages=sentences, **(facts | more))


def _worth(studio: Studio, places: int) -> forms.DecimalField:
    """The sum of a voucher, within the studio's bounds."""

    def written(minor: int) -> str:
        return formats.amount(minor, studio.currency, studio.locale)

    least, most = studio.voucher_least, studio.voucher_most
    bounds = (
        _("at least {least}").format(least=written(least))
        if most is None
        else _("from {least} to {most}").format(least=written(least), most=written(most))
    )
    return _sum(
        _("How much ({currency})").format(currency=studio.currency),
        places,
        min_value=Decimal(least).scaleb(-places),
        max_value=None if most is None else Decimal(most).scaleb(-places),
        help_text=f"{bounds[0].upper()}{bounds[1:]}.",
        error_messages=dict.fromkeys(
            ("required", "min_value", "max_value"), _("Write a sum {bounds}.").format(bounds=bounds)
        ),
    )
