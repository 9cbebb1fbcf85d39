"""Who else may collect the plates."""

from django import forms
from django.utils.translation import gettext_lazy

from bookings.common.forms import PageForm


class NameForm(PageForm):
    """Who else may collect the plates."""

    name = forms.CharField(
        label=gettext_lazy("Their name, as they would say it at the door"),
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": gettext_lazy("Write the name of who may collect your plates.")},
    )
