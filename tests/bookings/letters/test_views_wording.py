"""The pages on which the studio puts its letters into its own words."""

import pytest
from django.urls import reverse

from bookings.letters.models import Wording
from bookings.letters.placeholders import LETTERS
from bookings.orders.models import Order
from bookings.outbox.models import Notice
from tests import builders

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _studio():
    builders.a_studio()


def page(kind):
    return reverse("studio:wording", args=[kind])


def test_every_letter_is_listed_and_shown_on_an_invented_order(photographer):
    listed = photographer.get(reverse("studio:wordings")).content.decode()

    for kind in LETTERS:
        shown = photographer.get(page(kind)).content.decode()
        assert page(kind) in listed
        assert "Dear Ines Madrugada," in shown.partition("letter-seen")[2]
        assert "None" not in shown
    assert (Order.objects.count(), Notice.objects.count()) == (0, 0)


def test_looking_first_shows_the_words_and_keeps_nothing(photographer):
    asked = {"subject": "Hello {client}", "text": "{news} <i>{when}</i> {venue}", "look": "1"}

    shown = photographer.post(page("confirmed"), asked).content.decode()

    assert "Hello Ines Madrugada" in shown
    assert "Your sitting is confirmed. &lt;i&gt;" in shown
    assert "<i>" not in shown
    assert not Wording.objects.exists()


def test_kept_words_are_shown_again_and_given_up_again(photographer):
    text = "{news}\n\n- {when}\n- {venue}"
    photographer.post(page("confirmed"), {"subject": "", "text": text.replace("\n", "\r\n")})
    kept = Wording.objects.get()
    shown = photographer.get(page("confirmed")).content.decode()
    listed = photographer.get(reverse("studio:wordings")).content.decode()

    answer = photographer.post(page("confirmed"), {"ours": "1"}, follow=True).content.decode()

    assert (kept.kind, kept.subject, kept.text) == ("confirmed", "", text)
    assert "- {when}" in shown
    assert "Yours, since" in listed
    assert "in our words again" in answer
    assert not Wording.objects.exists()


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        (
            {"text": "{colour} {link} {deposit} {held_until}"},
            "This letter does not know {colour}. It knows: {client},",
        ),
        ({"subject": "{client.email}"}, "This letter does not know {client.email}."),
        ({"text": "Pay {deposit} until {held_until}"}, "Keep {link} in the text: without it"),
        ({"subject": "Deposit\x07"}, "without signs that cannot be printed"),
        ({"text": "{deposit} {held_until} {link}\x1b[31m"}, "The text holds a sign that cannot be printed."),
        ({"text": "x" * 4001}, "at most 4000 characters"),
    ],
    ids=["unknown", "looking in", "needed", "bell", "escape", "too long"],
)
def test_words_that_will_not_do_are_refused_with_a_reason(photographer, asked, sentence):
    answer = photographer.post(page("deposit_due"), asked)

    assert answer.status_code == 400
    assert sentence in answer.content.decode()
    assert not Wording.objects.exists()


def test_another_letter_there_is_not(photographer):
    assert photographer.get(page("love_letter")).status_code == 404
