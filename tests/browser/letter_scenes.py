"""The pages about letters: stopping reminders, the studio's own words, letters that came back."""

from django.urls import reverse

from bookings.letters import unsubscribe as stop_links
from tests.browser.scenes import Scene, answered, at, order


def words_looked_at(page, house):
    """A letter in other words, with a list and its link, looked at and not kept."""
    page.goto(reverse("studio:wording", args=["day_before"]))
    page.get_by_label("Subject").fill("Until {day}, " + "dear {client}, " * 5)
    page.get_by_label("Text", exact=True).fill(
        "See you on {when}.\n\n- at {venue}\n- {finding_it}\n\n{link}\n\n" + "w" * 60
    )
    return answered(page, page.get_by_role("button", name="Look at it first").click)


def stop(page, house):
    return page.goto(reverse("stop_reminders", args=[stop_links.token("ines@example.org")]))


LETTER_SCENES = [
    Scene("stop reminders", stop),
    Scene("words of the letters", at("studio:wordings"), studio=True),
    Scene("words of one letter, looked at", words_looked_at, studio=True),
    Scene("letters that came back", at("studio:letters_again", order("paid")), studio=True),
]
