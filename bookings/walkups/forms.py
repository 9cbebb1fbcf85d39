"""What is filled in to stand in line, and when somebody from the line has come."""

import re
from collections.abc import Sequence
from typing import Any
from uuid import uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.checkout.forms import DetailsForm
from bookings.common.forms import LabelledForm
from bookings.pricing.models import SizePrice
from bookings.walkups.models import CALLING
from plates.bench.models import PlateSize

MOST_LETTERS = 24  # of a name, so that the large page can be read from afar
# Letters of any script, with what stands between them in names; no digits and nothing that makes an address.
A_NAME = re.compile(r"[^\W\d_]+(?:[ .'’-]{1,2}[^\W\d_]+)*\.?")


class JoinForm(LabelledForm):
    """A name to be called by and one plate."""

    name = forms.CharField(
        label=gettext_lazy("Name to call"),
        widget=forms.TextInput(attrs={"autocomplete": "given-name", "maxlength": MOST_LETTERS}),
        error_messages={"required": gettext_lazy("Write the name that you will be called by.")},
        help_text=gettext_lazy("A first name will do."),
    )
    size = forms.ModelChoiceField(
        queryset=PlateSize.objects.none(),
        widget=forms.RadioSelect,
        empty_label=None,
        error_messages={
            "required": gettext_lazy("Choose one of the plates."),
            "invalid_choice": gettext_lazy("That plate cannot be had here. Choose one of those shown."),
        },
    )
    calling = forms.BooleanField(
        label=CALLING,
        error_messages={"required": gettext_lazy("Tick this box: without a name nobody can be called.")},
    )
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, prices: Sequence[SizePrice], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.prices = prices
        ids = [price.size_id for price in prices]
        size = self.fields["size"]
        assert isinstance(size, forms.ModelChoiceField)
        size.queryset = PlateSize.objects.filter(pk__in=ids)

    def clean_name(self) -> str:
        name = " ".join(str(self.cleaned_data["name"]).split())
        if len(name) > MOST_LETTERS:
            raise ValidationError(
                _("Write a name of at most {most_letters} letters; a first name will do.").format(
                    most_letters=MOST_LETTERS
                )
            )
        if not A_NAME.fullmatch(name):
            raise ValidationError(_("Write a name of letters only, such as Ines or Anne-Marie."))
        return name


class ComeForm(DetailsForm):
    """Who has come from the line; the photographer writes, the sitter answers."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["name"].widget.attrs["autocomplete"] = "off"
        self.fields["email"].widget.attrs["autocomplete"] = "off"
        self.fields["phone"].widget.attrs["autocomplete"] = "off"
        self.fields["phone"].label = _("Phone (if they like)")
        self.fields["email"].help_text = _("The letter that the plate is ready goes here.")
        self.fields["cautions"].label = _("The sitter has read the cautions and the terms")
