"""What the forms of every page have in common."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.utils.translation import gettext_lazy
from django_stubs_ext import StrOrPromise

# What a field wants, the special kind before the general one.
AS_WHAT: tuple[tuple[type[forms.Field], StrOrPromise], ...] = (
    (forms.DecimalField, gettext_lazy("write a number, for example 4.5.")),
    (forms.IntegerField, gettext_lazy("write a whole number.")),
    (forms.DateField, gettext_lazy("choose a date, for example 2026-11-28.")),
)


class PageForm(forms.Form):
    """A form laid out by crispy inside the page's own form tag. Base of every form of both apps."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = FormHelper()
        self.helper.form_tag = False


class StoreForm(PageForm):
    """A form whose complaints about what was typed name the field."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            if kind := next((words for each, words in AS_WHAT if isinstance(field, each)), None):
                # Repeated in the summary above the form, where it has to speak for itself.
                field.error_messages["invalid"] = f"{field.label or name.capitalize()}: {kind}"
