"""Why an invoice that is shut away is looked at. Nothing here writes."""

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from bookings.common.forms import PageForm
from bookings.invoices.models import Invoice


class LookForm(PageForm):
    """Which paper, and the reason that is noted with it."""

    paper = forms.ModelChoiceField(
        label=_("Paper"),
        queryset=Invoice.objects.none(),
        empty_label=_("Choose its number"),
        error_messages={
            "required": _("Choose the paper that you want to look at."),
            "invalid_choice": _("Choose one of the papers that are kept here."),
        },
    )
    reason = forms.CharField(
        label=_("Why you look at it"),
        max_length=200,
        help_text=_("It is noted with your name and cannot be taken back, for example: tax inspection 2031."),
        error_messages={"required": _("Say why you look at it, such as a tax inspection.")},
    )

    def __init__(self, *args: Any, papers: QuerySet[Invoice], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["paper"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = papers.select_related("series").order_by("issued_on", "pk")
