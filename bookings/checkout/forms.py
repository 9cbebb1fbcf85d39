"""What a visitor fills in."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from urllib.parse import urlencode

from django import forms
from django.core.exceptions import ValidationError
from django.utils.text import format_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.forms import LAST_YEAR, LabelledForm
from bookings.errors import NothingChosen
from bookings.orders.models import ConsentPurpose
from bookings.orders.services.placing import Details
from bookings.orders.wishes import MOST_PLATES, MOST_SITTERS, Wish, discount_code
from bookings.pricing.models import Extra, SizePrice

# The bench counts minutes; a date far beyond any diary would leave its count.


class WishForm(LabelledForm):
    """How many plates of each size, which extras, how many people, and the code of a discount.

    `per_sitter`: what each further person costs, least first; empty where company is free.
    """

    sitters = forms.IntegerField(
        label=gettext_lazy("How many people are in the picture?"),
        min_value=1,
        max_value=MOST_SITTERS,
        required=False,
        initial=1,
        help_text=gettext_lazy("Children count, and you too."),
        widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
        error_messages=dict.fromkeys(
            ("invalid", "min_value", "max_value"),
            format_lazy(
                gettext_lazy("People in the picture: write a whole number from 1 to {most}."),
                most=MOST_SITTERS,
            ),
        ),
    )
    code = forms.CharField(
        label=gettext_lazy("Discount code (if you have one)"),
        max_length=40,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "characters"}),
    )

    def __init__(
        self,
        *args: Any,
        prices: Sequence[SizePrice],
        extras: Sequence[Extra],
        per_sitter: Sequence[int] = (),
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.prices, self.extras, self.per_sitter = prices, extras, per_sitter
        self.helper.disable_csrf = True
        for price in prices:
            self.fields[f"size_{price.size_id}"] = _quantity(_("{size} plate").format(size=price.size))
        for extra in extras:
            self.fields[f"extra_{extra.pk}"] = _quantity(extra.name)

    def as_query(self) -> str:
        """What was filled in, as the query of an address that asks for the same."""
        wished = ("size_", "extra_", "sitters", "code")
        names = [name for name in self.fields if name.startswith(wished)]
        return urlencode({name: self.data[name] for name in names if self.data.get(name)})

    def clean_code(self) -> str:
        return discount_code(str(self.cleaned_data["code"]))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        self._refuse_what_is_gone()
        if not self.errors:
            try:
                cleaned["wish"] = self._wish(cleaned)
            except NothingChosen as error:
                raise ValidationError(str(error)) from error
        return cleaned

    def _refuse_what_is_gone(self) -> None:
        """A size or extra that was withdrawn since the page was drawn is said, not left out in silence."""
        for name, chosen in self.data.items():
            if name.startswith(("size_", "extra_")) and name not in self.fields and chosen not in ("", "0"):
                raise ValidationError(
                    _("Something that you chose is no longer for sale. Look through the plates again.")
                )

    def _wish(self, cleaned: dict[str, Any]) -> Wish:
        sizes = [
            price.size for price in self.prices for _ in range(cleaned.get(f"size_{price.size_id}") or 0)
        ]
        counted = {extra: cleaned.get(f"extra_{extra.pk}") or 0 for extra in self.extras}
        return Wish(
            sizes=sizes,
            extras={extra: count for extra, count in counted.items() if count},
            sitters=cleaned.get("sitters") or 1,
            code=cleaned.get("code", ""),
        )


class HoldForm(WishForm):
    """The wish again, with the start time that was pressed."""

    submission_key = forms.UUIDField(widget=forms.HiddenInput)
    start = forms.CharField(max_length=60, widget=forms.HiddenInput)

    def clean_start(self) -> tuple[int, datetime]:
        """The pressed button says the day and the instant."""
        try:
            return parse_start(self.cleaned_data["start"])
        except ValueError as error:
            raise ValidationError(str(error)) from error


def parse_start(text: str) -> tuple[int, datetime]:
    """Read what a start-time button sends, "<day id> <ISO 8601 instant>". ValueError with a sentence otherwise."""
    day_id, _blank, moment = text.partition(" ")
    try:
        day, starts_at = int(day_id), datetime.fromisoformat(moment)
    except ValueError as error:
        raise ValueError(_("Choose one of the start times shown.")) from error
    if starts_at.tzinfo is None or starts_at.year > LAST_YEAR or not 0 < day < 2**31:
        raise ValueError(_("Choose one of the start times shown."))
    return day, starts_at


class DetailsForm(LabelledForm):
    """Who is coming, the free choices, and the cautions that have to be read."""

    name = forms.CharField(
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
        error_messages={"required": gettext_lazy("Write your name.")},
    )
    email = forms.EmailField(
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        error_messages={
            "required": gettext_lazy("Write the address that your letters go to."),
            "invalid": gettext_lazy("Write an address such as name@example.org."),
        },
        help_text=gettext_lazy("Your confirmation and the pickup notice go here."),
    )
    phone = forms.CharField(
        label=gettext_lazy("Phone (if you like)"),
        max_length=40,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "tel", "type": "tel"}),
    )
    consent_show = forms.BooleanField(required=False, label=ConsentPurpose.SHOW.label)
    consent_news = forms.BooleanField(required=False, label=ConsentPurpose.NEWS.label)
    cautions = forms.BooleanField(
        label=gettext_lazy("I have read the cautions and the terms"),
        error_messages={
            "required": gettext_lazy("Read the cautions and the terms above, then tick this box.")
        },
    )

    def clean_name(self) -> str:
        return " ".join(str(self.cleaned_data["name"]).split())

    def details(self) -> Details:
        """The answers of a valid form."""
        return Details(
            name=self.cleaned_data["name"],
            email=self.cleaned_data["email"],
            phone=self.cleaned_data["phone"],
            consents={purpose: self.cleaned_data[f"consent_{purpose.value}"] for purpose in ConsentPurpose},
        )


def _quantity(label: str) -> forms.IntegerField:
    how_many = _("{label}: write a whole number from 0 to {most_plates}.").format(
        label=label, most_plates=MOST_PLATES
    )
    return forms.IntegerField(
        error_messages={"invalid": how_many, "min_value": how_many, "max_value": how_many},
        label=label,
        min_value=0,
        max_value=MOST_PLATES,
        required=False,
        initial=0,
        widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
    )
