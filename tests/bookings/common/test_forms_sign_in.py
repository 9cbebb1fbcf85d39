"""The photographer's door."""

import pytest
from django.urls import reverse

pytestmark = pytest.mark.django_db


def test_a_wrong_password_puts_the_summary_and_nothing_else_into_focus(client):
    page = client.post(reverse("login"), {"username": "nobody", "password": "guessed"}).content.decode()

    # One element with it in a document: HTML, "the autofocus attribute".
    assert page.count(" autofocus") == 1
    assert '<section class="error-summary" tabindex="-1" autofocus' in page
    assert "<title>Put right: " in page
