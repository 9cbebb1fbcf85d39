"""What the forms of every page have in common."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.forms.utils import pretty_name
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

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


class PageForm(forms.Form):
    """A form laid out by crispy inside the page's own form tag. `unlabelled`: those called by their name."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = FormHelper()
        self.helper.form_tag = False
        self.unlabelled = {name for name, field in self.fields.items() if field.label is None}
        for name in self.unlabelled:
            self.fields[name].label = _(pretty_name(name))
