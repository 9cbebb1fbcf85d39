"""What the photographer fills in about letters."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common.forms import StudioForm
from bookings.letters import wording as wordings
from bookings.letters.placeholders import LETTERS
from bookings.outbox.models import NoticeKind


class LetterAddressForm(StudioForm):
    """Where the letters of an order go."""

    email = forms.EmailField(label=gettext_lazy("Address of the letters"), max_length=254)


class WordingForm(StudioForm):
    """A letter in other words: plain text, with names in braces from a closed list."""

    subject = forms.CharField(
        label=gettext_lazy("Subject"),
        max_length=160,
        required=False,
        help_text=gettext_lazy("Empty: our subject."),
    )
    text = forms.CharField(
        label=gettext_lazy("Text"),
        max_length=4000,
        required=False,
        widget=forms.Textarea(attrs={"rows": 14}),
        help_text=gettext_lazy(
            "Empty: our text. An empty line begins a paragraph, lines that begin with “- ” are a list. A line whose"
            " placeholders all stand for nothing is left out."
        ),
    )

    def __init__(self, *args: Any, kind: NoticeKind, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.letter = LETTERS[kind]

    def clean_subject(self) -> str:
        subject = str(self.cleaned_data["subject"])
        if not subject.isprintable():
            raise ValidationError(_("Write the subject on one line, without signs that cannot be printed."))
        self._refuse_unknown(subject)
        return subject

    def clean_text(self) -> str:
        text = "\n".join(str(self.cleaned_data["text"]).splitlines())
        if not text.replace("\n", "").isprintable():
            raise ValidationError(_("The text holds a sign that cannot be printed. Type it anew."))
        self._refuse_unknown(text)
        if text and (missing := wordings.missing(text, self.letter.needed)):
            raise ValidationError(
                _("Keep %(names)s in the text: without it the letter is of no use.")
                % {"names": _braced(missing)}
            )
        return text

    def _refuse_unknown(self, text: str) -> None:
        if unknown := wordings.unknown(text, self.letter.known):
            raise ValidationError(
                _("This letter does not know %(names)s. It knows: %(known)s.")
                % {"names": _braced(unknown), "known": _braced(self.letter.known)}
            )


def _braced(names: Iterable[str]) -> str:
    return ", ".join(f"{{{name}}}" for name in names)
