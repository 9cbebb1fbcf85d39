"""What a client fills in about what is kept of them."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from bookings.common.forms import LabelledForm
from bookings.orders.models import ConsentPurpose


class AnswersForm(LabelledForm):
    """The free choices of booking, to be changed at any time."""

    consent_show = forms.BooleanField(required=False, label=ConsentPurpose.SHOW.label)
    consent_news = forms.BooleanField(required=False, label=ConsentPurpose.NEWS.label)

    @classmethod
    def showing(cls, answers: Mapping[ConsentPurpose, bool]) -> "AnswersForm":
        """The form with the answers that hold now."""
        return cls(initial={f"consent_{purpose.value}": given for purpose, given in answers.items()})

    def answers(self) -> dict[ConsentPurpose, bool]:
        return {purpose: self.cleaned_data[f"consent_{purpose.value}"] for purpose in ConsentPurpose}


class EraseForm(LabelledForm):
    sure = forms.BooleanField(
        label=gettext_lazy("Forget who I am. I know that this cannot be undone."),
        error_messages={"required": gettext_lazy("Tick the box if you want to be forgotten.")},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["sure"].widget.attrs["autocomplete"] = "off"
