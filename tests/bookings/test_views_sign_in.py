"""Who gets in to the studio's own pages, and how often a wrong password may be tried."""

from datetime import timedelta

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from bookings.invoices.services import issuing as invoices
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

SECRET = "a-long-practice-secret"


@pytest.fixture
def studio_pages(day):
    order = builders.a_paid_order(day)
    plate = builders.made_plates(order)[0]
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    return [
        reverse("studio:today"),
        reverse("studio:day", args=[day.pk]),
        reverse("studio:planner"),
        reverse("studio:plan_day", args=[day.pk]),
        reverse("studio:run_sheet", args=[day.pk]),
        reverse("studio:orders"),
        reverse("studio:spoil", args=[plate.pk]),
        *(
            reverse(f"studio:{page}", args=[order.reference])
            for page in ("order", "made_out_to", "pickup_notice", "cancel", "move")
        ),
        *(
            reverse(f"studio:{page}", args=[invoice.pk])
            for page in ("invoice", "einvoice", "take_back_invoice")
        ),
        reverse("plates:plate", args=[plate.number]),
        reverse("plates:bench", args=[day.bench_day.bench_id]),
    ]


def sign_in(client, password, username="operator"):
    return client.post(reverse("login"), {"username": username, "password": password})


@pytest.fixture
def operator():
    return builders.an_operator(password=SECRET)


def test_a_visitor_is_sent_to_sign_in_and_back_to_the_same_page(client, studio_pages):
    answers = {address: client.get(address).headers.get("Location") for address in studio_pages}

    assert answers == {address: f"{reverse('login')}?next={address}" for address in studio_pages}


def test_an_account_without_rights_is_shown_the_door_and_why(client, studio_pages):
    client.force_login(User.objects.create_user("visitor", password=SECRET))

    answers = [client.get(address, follow=True) for address in studio_pages]

    assert {answer.redirect_chain[-1][0].split("?")[0] for answer in answers} == {reverse("login")}
    assert all("This account may not open that page." in Page(answer).text for answer in answers)


@pytest.mark.parametrize(
    ("page", "argument"), [("studio:pour", 1), ("studio:press", 1), ("studio:issue", "A")]
)
def test_an_account_without_rights_cannot_act_either(client, page, argument):
    client.force_login(User.objects.create_user("visitor", password=SECRET))

    response = client.post(reverse(page, args=[argument]))

    assert response.url.startswith(reverse("login"))


def test_no_page_that_names_clients_is_kept_by_a_browser_or_a_proxy(photographer, studio_pages):
    answers = {
        address: photographer.get(address).headers.get("Cache-Control", "") for address in studio_pages
    }

    assert {address: kept for address, kept in answers.items() if "no-store" not in kept} == {}


def test_signing_in_leads_to_the_queue(client, operator):
    response = sign_in(client, SECRET)

    assert response.url == reverse("studio:today")


def test_a_wrong_password_is_said_without_telling_whether_the_account_exists(client, operator):
    wrong, unknown = sign_in(client, "wrong"), sign_in(client, "wrong", username="nobody")

    assert Page(wrong).errors == Page(unknown).errors != []


def test_the_fifth_wrong_password_locks_the_door_even_for_the_right_one(client, operator):
    answers = [sign_in(client, "wrong").status_code for _ in range(5)]

    after = sign_in(client, SECRET)

    # 429 Too Many Requests (RFC 6585, 4).
    assert answers == [200, 200, 200, 200, 429]
    assert (after.status_code, "The door is locked for a while" in Page(after).text) == (429, True)


def test_four_wrong_passwords_do_not_lock_it(client, operator):
    for _ in range(4):
        sign_in(client, "wrong")

    assert sign_in(client, SECRET).status_code == 302


def test_the_door_opens_again_after_a_quarter_of_an_hour(client, operator, clock):
    for _ in range(5):
        sign_in(client, "wrong")
    clock.shift(timedelta(minutes=15, seconds=1))

    assert sign_in(client, SECRET).status_code == 302


def test_guessing_at_one_account_locks_no_other_one_out(client, operator):
    for _ in range(5):
        sign_in(client, "wrong", username="nobody")

    assert sign_in(client, SECRET).status_code == 302


def test_signing_in_leads_to_no_other_site(client, operator):
    response = client.post(
        reverse("login"), {"username": "operator", "password": SECRET, "next": "//elsewhere.example.org/"}
    )

    assert response.url == reverse("studio:today")


def test_a_form_without_its_token_is_refused_in_words(day):
    response = Client(enforce_csrf_checks=True).post(reverse("hold"), {})

    assert (response.status_code, "Nothing was changed." in Page(response).text) == (403, True)
