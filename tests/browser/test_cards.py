"""From the studio's page to the card service's: Chromium asks the page's form-action of the redirect as well."""

import re

import pytest
from django.test import override_settings
from django.urls import reverse

from bookings.cards.models import CardCheckout
from bookings.orders import links
from tests import builders
from tests.bookings.cards import card_service
from tests.browser.windows import Window

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_the_button_leads_out_to_the_page_of_the_card_service(chromium, site):
    builders.a_size()
    order = builders.a_placed_order(builders.a_day())
    with card_service.stand_in() as service:
        service.pages = service.address
        with override_settings(CARD_API=service.address, CARD_PAGES=service.address):
            window = Window(chromium, site)
            window.page.goto(reverse("deposit", args=[links.checkout_token(order)]))
            window.page.get_by_role("button", name=re.compile("^Pay everything")).click()

            window.page.wait_for_url(f"{service.address}/**", timeout=15_000)

            assert window.page.url == CardCheckout.objects.get().address
            window.close()
