"""The page of learned minutes, and the press that takes them over."""

import pytest
from django.test import Client
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plates.bench.models import Bench
from tests import builders
from tests.builders.logs import a_log

pytestmark = pytest.mark.django_db


@pytest.fixture
def bench():
    bench = builders.a_bench()
    a_log(bench, 12)
    return bench


def page(bench):
    return reverse("plates:timings", args=[bench.pk])


def words(response):
    return " ".join(response.content.decode().split())


def test_what_is_learned_stands_beside_the_plan_with_one_button(photographer, bench):
    shown = words(photographer.get(page(bench)))

    assert "<dd>2:30, give or take 0:00</dd>" in shown
    assert "are done within 3 minutes" in shown
    assert shown.count('<button class="button">') == 1
    assert 'name="operation" value="develop"><input type="hidden" name="minutes" value="3"' in shown
    assert "the shortest wash is a rule of the chemistry, not a habit" in shown
    assert "the shortest bath is a rule of the chemistry, not a habit" in shown


def test_too_few_plates_say_how_many_there_are(photographer):
    bench = builders.a_bench()
    a_log(bench, 5)

    shown = words(photographer.get(page(bench)))

    assert shown.count("<dd>Too few plates yet: 5 of 12</dd>") == 5
    assert '<button class="button">' not in shown


def test_plates_left_out_are_told_of(photographer, bench):
    # A press forgotten for an hour and a half.
    a_log(bench, 1, lengths=(300, 170, 5400), first=builders.NOW)

    assert "<dd>1 with a forgotten or late press</dd>" in words(photographer.get(page(bench)))


def test_a_press_takes_the_minutes_over_and_says_so(photographer, bench):
    answer = photographer.post(page(bench), {"operation": "develop", "minutes": "3"}, follow=True)

    assert answer.redirect_chain == [(page(bench), 302)]
    assert "Planned with 3 minutes from now on." in words(answer)
    assert Bench.objects.get().develop == 3


def test_a_refused_press_says_why_and_shows_the_figures(photographer, bench):
    answer = photographer.post(page(bench), {"operation": "develop", "minutes": "4"})

    assert answer.status_code == 409
    assert "now says 3. Look at the new figures first." in words(answer)
    assert "The planned minutes were not changed" in words(answer)
    assert Bench.objects.get().develop == 2


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    operation=st.sampled_from(["develop", "wash", "bath", "", "\0", "pk", "x" * 999]) | st.text(max_size=30),
    minutes=st.sampled_from(["", "0", "-1", "1.5", "NaN", "9" * 5000, "²", "\0"]) | st.text(max_size=9),
)
def test_anything_else_is_refused_in_words(photographer, bench, operation, minutes):
    answer = photographer.post(page(bench), {"operation": operation, "minutes": minutes})

    assert answer.status_code == 409
    assert Bench.objects.get().develop == 2


def test_a_form_without_its_token_changes_nothing(bench):
    client = Client(enforce_csrf_checks=True)
    client.force_login(builders.an_operator("careful"))

    answer = client.post(page(bench), {"operation": "develop", "minutes": "3"})

    assert (answer.status_code, Bench.objects.get().develop) == (403, 2)


def test_the_page_names_no_client_and_no_order(photographer, bench):
    order = builders.a_paid_order(builders.a_day(bench=bench), name="Ines Madrugada")
    builders.made_plates(order)

    shown = photographer.get(page(bench)).content.decode()

    assert [fact for fact in ("Madrugada", order.reference) if fact in shown] == []


@pytest.mark.parametrize("row", [0, 999, 10**30])
def test_a_bench_that_is_not_there_is_not_found(photographer, row):
    assert photographer.get(reverse("plates:timings", args=[row])).status_code == 404


def test_the_bench_page_leads_there(photographer, bench):
    shown = photographer.get(reverse("plates:bench", args=[bench.pk])).content.decode()

    assert f'href="{page(bench)}"' in shown
