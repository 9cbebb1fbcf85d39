"""What the photographer fills in about letters."""

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.forms.studio import StudioForm


class LetterAddressForm(StudioForm):
    """Where the letters of an order go."""

    email = forms.EmailField(label=_("Address of the letters"), max_length=254)
