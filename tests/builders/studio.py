"""The one studio: its terms, who works in it, and how it finishes plates."""

from datetime import date

from django.contrib.auth.models import User

from bookings.pricing.models import Terms
from bookings.studio.models import Studio
from plates.finishing.models import Finishing


def a_studio(**changes: object) -> Studio:
    """The one studio; changes are saved on it."""
    facts: dict[str, object] = {
        "name": "Gannet Lane Plate Rooms",
        "address": "4 Gannet Lane\nSaltmarrow",
        "country": "PT",
        "email": "rooms@example.org",
        "phone": "+351 555 010 099",
        "tax_number": "PT999999990",
        "how_to_pay": "Bring the deposit to Gannet Lane, or send it to the account named on the door.",
    }
    return Studio.objects.update_or_create(pk=1, defaults=changes, create_defaults=facts | changes)[0]


def some_terms(**changes: object) -> Terms:
    """Half the price as deposit, free to cancel until 48 hours before."""
    facts: dict[str, object] = {
        "holds_from": date(2026, 1, 1),
        "deposit_share_bp": 5000,
        "text": "One plate is made again without charge when the fault is the studio's.",
    }
    return Terms.objects.get_or_create(version="2026-1", defaults=facts | changes)[0]


def an_operator(username: str = "operator", password: str = "a-long-practice-secret") -> User:
    """Someone who may sign in to the studio's pages."""
    return User.objects.create_user(username=username, password=password, is_staff=True)


def usual_finishing(**changes: object) -> Finishing:
    """How a new studio finishes plates, but for the changes; makes the row where a browser test emptied all."""
    return Finishing.objects.update_or_create(pk=1, defaults=changes)[0]


def finishing(**changes: object) -> Finishing:
    """How the studio finishes plates: an hour of drying and a day of cure to the minute, unless changed."""
    facts = dict.fromkeys(("dry_least", "dry_usual", "dry_most"), 60)
    facts |= dict.fromkeys(("cure_least", "cure_usual", "cure_most"), 1440)
    return usual_finishing(**facts | changes)
