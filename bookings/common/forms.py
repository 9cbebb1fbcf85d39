"""What the forms of every page have in common."""

from decimal import Decimal
from typing import Any

from babel.numbers import get_currency_precision
from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.forms.utils import pretty_name
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from plates.common.forms import PageForm
from plates.common.words import within

# What Django makes of the names of fields that have no label of their own, marked for translation.
NAMES = (
    gettext_noop("Address"),
    gettext_noop("Bench"),
    gettext_noop("Closes"),
    gettext_noop("Company"),
    gettext_noop("Country"),
    gettext_noop("Direction"),
    gettext_noop("Email"),
    gettext_noop("Method"),
    gettext_noop("Name"),
    gettext_noop("Note"),
    gettext_noop("Opens"),
    gettext_noop("Orders"),
    gettext_noop("Racks empty by"),
    gettext_noop("Reason"),
    gettext_noop("Reference"),
    gettext_noop("Size"),
    gettext_noop("Tax number"),
    gettext_noop("Venue"),
)


class LabelledForm(PageForm):
    """A form whose fields without a label are called by their name, in the studio's language; `unlabelled`: those."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.unlabelled = {name for name, field in self.fields.items() if field.label is None}
        for name in self.unlabelled:
            self.fields[name].label = _(pretty_name(name))


class StudioForm(LabelledForm):
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


# Years that a form takes for a date.
FIRST_YEAR, LAST_YEAR = 2000, 2999
LONGEST_WORDS = 100  # as the page's field says
