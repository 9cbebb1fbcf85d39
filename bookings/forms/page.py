"""What the forms of every page have in common."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms


class PageForm(forms.Form):
    """A form laid out by crispy inside the page's own form tag."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = FormHelper()
        self.helper.form_tag = False
