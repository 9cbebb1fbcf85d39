"""Whatever is sent about the store room, nothing answers with a server error (this client raises what views raise)."""

import pytest
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plates.chemistry.recipes.catalogue import PRINTED
from plates.store.models import BathCare, Supply, SupplyEvent
from tests.bookings.test_views_any_input import ANYTHING, refused_in_words, sent
from tests.builders.store import a_bath, a_supply, an_own_recipe

pytestmark = pytest.mark.django_db

# A few: it was run with many when it was written, and each is a whole page.
some = settings(max_examples=6, suppress_health_check=[HealthCheck.function_scoped_fixture])
NUMBERS = st.decimals(-1, 10**6, places=3).map(str) | st.sampled_from(["NaN", "sNaN", "1e400", "0.0001", ""])
DAYS = st.dates().map(str) | st.just("2026-11-20")
REFS = st.sampled_from([*PRINTED, "own-1", "own-99", "own-x", ""])


@pytest.fixture
def own():
    return an_own_recipe()


@pytest.fixture
def bath():
    return a_bath()


@pytest.fixture
def supply():
    return a_supply()


@some
@given(fields=sent(recipe=REFS, volume=NUMBERS, unit=ANYTHING, told=ANYTHING, ounces=ANYTHING))
def test_any_calculation(photographer, fields):
    refused_in_words(photographer.get(reverse("plates:recipes"), fields))
    refused_in_words(photographer.get(reverse("plates:mix"), fields))


@some
@given(
    fields=sent(
        recipe=REFS, kind=ANYTHING, made=NUMBERS, label=ANYTHING, mixed_on=DAYS, ripe_from=DAYS, best_before=DAYS,
        silver=NUMBERS, draw=ANYTHING, note=ANYTHING,
    )
)  # fmt: skip
def test_any_batch(photographer, own, fields):
    refused_in_words(photographer.post(reverse("plates:mix"), fields))


@some
@given(
    fields=sent(
        **{
            "name": st.just("Ours"), "kind": st.just("fixer"), "makes": NUMBERS, "line-TOTAL_FORMS": ANYTHING,
            "line-INITIAL_FORMS": st.just("0"), "line-0-name": ANYTHING, "line-0-amount": NUMBERS | ANYTHING,
            "line-0-unit": st.sampled_from(["g", "us_minim", "cup"]), "line-1-name": ANYTHING,
        }
    )
)  # fmt: skip
def test_any_recipe_of_ones_own(photographer, fields):
    refused_in_words(photographer.post(reverse("plates:new_recipe"), fields))


@some
@given(
    reading=sent(
        gravity=NUMBERS, celsius=NUMBERS, grains=NUMBERS, ounce=ANYTHING, sample=NUMBERS, titrant=NUMBERS,
        molar=NUMBERS, ph=NUMBERS, volume=NUMBERS, scale=st.sampled_from(["20/20", "60F/60F", "cold"]),
    ),
    care=sent(kind=st.sampled_from(BathCare.Kind.values), bench=ANYTHING, salt=NUMBERS, poured=NUMBERS, stock=NUMBERS),
)  # fmt: skip
def test_any_reading_and_any_care(photographer, bath, reading, care):
    for name, fields in (("plates:bath_read", reading), ("plates:bath_care", care)):
        refused_in_words(photographer.post(reverse(name, args=[bath.pk]), fields))
    page = reverse("plates:bath", args=[bath.pk])
    refused_in_words(photographer.get(page, {"stock_strength": care.get("stock", "")}))


@some
@given(
    move=sent(
        kind=st.sampled_from(SupplyEvent.Kind.values), amount=NUMBERS, on=DAYS, cost=NUMBERS, label=ANYTHING,
        container=ANYTHING,
    ),
    seen=sent(seen=st.sampled_from(SupplyEvent.Kind.values), of=ANYTHING, day=DAYS, peroxide=NUMBERS),
)  # fmt: skip
def test_any_event_of_a_supply(photographer, supply, move, seen):
    for name, fields in (("plates:supply_move", move), ("plates:supply_seen", seen)):
        refused_in_words(photographer.post(reverse(name, args=[supply.pk]), fields))
    refused_in_words(photographer.get(reverse("plates:supply", args=[supply.pk])))


@some
@given(
    fields=sent(
        name=ANYTHING, kind=st.sampled_from(Supply.Kind.values), unit=st.sampled_from(Supply.Unit.values),
        pack=NUMBERS, pack_cost=NUMBERS, least=NUMBERS, substance=ANYTHING, size=ANYTHING, pieces_a_plate=NUMBERS,
    )
)  # fmt: skip
def test_any_supply(photographer, fields):
    refused_in_words(photographer.post(reverse("plates:new_supply"), fields))
