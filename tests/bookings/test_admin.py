"""Setting up what is sold: a code is kept as clients' typing of it is read."""

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError

from bookings.admin import DiscountForm
from bookings.orders.wishes import discount_code
from bookings.pricing.models import Discount, TaxClass

pytestmark = pytest.mark.django_db

FACTS = {"text": "Neighbours", "holds_from": "2026-01-01", "share_bp": "1000"}


@pytest.mark.parametrize(
    "typed", ["HARBOUR10", "harbour10", " Harbour 10 "], ids=["plain", "small", "blanks"]
)
def test_a_code_is_kept_in_capitals_without_blanks_however_it_is_typed(typed):
    form = DiscountForm(FACTS | {"code": typed})

    assert form.is_valid(), form.errors
    assert form.save().code == "HARBOUR10" == discount_code(typed)


@pytest.mark.parametrize("typed", ["AB", "HARBOUR-10", "ÄRA10"], ids=["short", "a dash", "beyond Z"])
def test_a_code_that_is_hard_to_read_aloud_is_refused(typed):
    form = DiscountForm(FACTS | {"code": typed})

    assert form.errors == {"code": ["Use 3 to 20 letters from A to Z and figures, for example HARBOUR10."]}


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"amount": "500"}, "Give either a share above 0 and up to 100 %, or a sum above nothing."),
        ({"share_bp": ""}, "Give either a share above 0 and up to 100 %, or a sum above nothing."),
        ({"holds_until": "2025-12-31"}, "The last day lies before the first."),
    ],
    ids=["both", "neither", "ends before it begins"],
)
def test_a_discount_that_cannot_be_is_refused_with_a_sentence(change, sentence):
    form = DiscountForm(FACTS | {"code": "HARBOUR10"} | change)

    assert form.non_field_errors() == [sentence]
    assert not Discount.objects.exists()


def test_the_database_too_refuses_a_discount_of_neither_a_share_nor_a_sum():
    with pytest.raises(IntegrityError, match="discount_share_or_sum"):
        Discount.objects.create(code="NOTHING", text="Nothing", holds_from="2026-01-01")


def test_a_tax_class_whose_rate_does_not_fit_its_category_is_refused_with_a_sentence():
    with pytest.raises(
        ValidationError, match="A standard rate lies above 0 and up to 100 %; zero rate and exempt are 0"
    ):
        TaxClass(name="Odd", category="S", rate_bp=0).full_clean()
