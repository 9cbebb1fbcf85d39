"""Which language the studio speaks: that of its locale, where this program has words in it, and English elsewhere."""

from contextlib import AbstractContextManager

from django.conf import settings
from django.utils import translation

from bookings.studio.models import Studio


def language_of(locale: str) -> str:
    """The language of a locale such as de_AT: for its territory if there is one, else the language itself."""
    try:
        return translation.get_supported_language_variant(locale.replace("_", "-").lower())
    except LookupError:
        return settings.LANGUAGE_CODE


def speaking(locale: str) -> AbstractContextManager[None]:
    """Words are in the language of `locale` while this holds."""
    return translation.override(language_of(locale))


def speaking_for_the_studio() -> AbstractContextManager[None]:
    """Words are in the studio's language while this holds; in English before its name has been entered."""
    return speaking(locale_of(Studio.objects.first()))


def locale_of(studio: Studio | None) -> str:
    """The studio's locale; none before its name has been entered."""
    return studio.locale if studio else ""
