"""Who may do what at every address of the site: visitor, client with a link, stranger, photographer x method.

An address that is missing in the table fails. TRACE is refused everywhere (ASVS 5.0, 13.4.4: quality-bars s.1 #14).
"""

import pytest
from django.contrib import admin
from django.contrib.auth.models import User
from django.test import Client
from django.urls import URLPattern, get_resolver, reverse

from bookings.handover.models import Handover
from bookings.invoices.models import Invoice
from bookings.orders import links
from bookings.orders.models import Order
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher
from plates.bench.models import Plate, PlateEvent
from tests import builders
from tests.addresses import every_address
from tests.doors import BOTH, METHODS, MINE, PUBLIC, STUDIO, TABLE, WITH_A_LINK

pytestmark = pytest.mark.django_db


def walked(patterns, spaces=()):
    """Every named address below `patterns`, with its name space; Django's own set-up pages are one, walked apart."""
    for pattern in patterns:
        if isinstance(pattern, URLPattern):
            yield ":".join([*spaces, pattern.name])
        elif pattern.namespace != "admin":
            yield from walked(
                pattern.url_patterns, [*spaces, pattern.namespace] if pattern.namespace else spaces
            )


@pytest.fixture(scope="module")
def addresses(rows_for_all):
    return every_address()


def rows():
    """What nobody but the photographer may have changed."""
    counted = tuple(
        model.objects.count() for model in (Payment, Invoice, Plate, PlateEvent, Voucher, Handover)
    )
    return counted, Order.objects.filter(cancelled_at=None).count()


def statuses(client, addresses, names):
    return {
        (name, method): client.generic(method, addresses[name]).status_code
        for name in names
        for method in METHODS
    }


def surprises(found):
    """What answered a method that it should not take, or did not take one that it should, or broke."""
    return {
        key: status
        for key, status in found.items()
        if (status == 405) is (key[1] in TABLE[key[0]]) or status >= 500
    }


@pytest.fixture
def photographer(client):
    client.force_login(builders.an_operator())
    return client


@pytest.fixture(params=["visitor", "stranger"])
def outsider(request, client):
    """Somebody without an account, and somebody with one that gives no right to the studio's pages."""
    if request.param == "stranger":
        client.force_login(User.objects.create_user("stranger"))
    return client


def test_every_address_of_the_site_is_in_the_table():
    assert sorted(walked(get_resolver().url_patterns)) == sorted(TABLE)


def test_every_studio_address_takes_its_methods_and_no_others_from_the_photographer(photographer, addresses):
    assert surprises(statuses(photographer, addresses, STUDIO)) == {}


def test_every_public_address_takes_its_methods_and_no_others_from_anybody(outsider, addresses):
    assert surprises(statuses(outsider, addresses, PUBLIC | WITH_A_LINK | MINE)) == {}


def test_nobody_else_gets_past_the_door_of_the_studio_by_any_method(outsider, addresses):
    before = rows()

    answers = [outsider.generic(method, addresses[name]) for name in STUDIO for method in METHODS]

    assert {(answer.status_code, answer.url.partition("?")[0]) for answer in answers} == {
        (302, reverse("login"))
    }
    assert rows() == before


def test_reading_changes_nothing(photographer, addresses):
    before = rows()

    for name in TABLE:
        photographer.get(addresses[name])

    assert rows() == before


@pytest.mark.parametrize("name", WITH_A_LINK)
def test_a_link_opens_its_own_kind_of_page_only(client, addresses, settings, name):
    settings.DEMO = True  # the practice card is found in the practice studio only
    order = Order.objects.filter(placed_at__isnull=False).get()
    other_kind = links.checkout_token(order) if name.startswith("sitting") else links.sitting_token(order)

    for token in (other_kind, "nonsense", links.sitting_token(order)[:-1]):
        target = reverse(name, args=[token])
        assert {client.generic(method, target).status_code for method in WITH_A_LINK[name]} == {410}


def test_what_is_behind_a_mailed_link_is_closed_to_every_other_browser(outsider, addresses):
    before = rows()

    answers = {
        outsider.generic(method, addresses[name]).status_code for name in MINE for method in MINE[name]
    }

    assert answers == {410}
    assert rows() == before


def set_up_pages():
    """The first page of set-up, and what is listed and entered there."""
    models = [f"{model._meta.app_label}_{model._meta.model_name}" for model in admin.site._registry]
    pages = [reverse(f"admin:{model}_{page}") for model in models for page in ("changelist", "add")]
    return [reverse("admin:index"), *pages]


def test_the_set_up_pages_send_everybody_else_to_sign_in(outsider):
    answers = {target: outsider.get(target) for target in set_up_pages()}

    assert {answer.status_code for answer in answers.values()} == {302}
    assert all("login" in answer.url or "sign-in" in answer.url for answer in answers.values())


def test_the_set_up_pages_take_no_other_methods_from_anybody(outsider):
    owner = Client()
    owner.force_login(User.objects.create_superuser("owner"))
    others = [method for method in METHODS if method not in BOTH]

    found = {
        who.generic(method, page).status_code
        for who in (owner, outsider)
        for page in set_up_pages()
        for method in others
    }

    assert found == {405}
