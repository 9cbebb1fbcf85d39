"""What a visitor is told of the price before anything is asked, and a code that is typed."""

from datetime import date, time

import pytest
from django.urls import reverse

from bookings.orders.models import Order
from bookings.pricing.models import SizePrice, TaxClass, Terms
from plates.bench.models import BenchJob, PlateSize
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page
from tests.reading.wishes import TEN, held_by, hold, wished

pytestmark = pytest.mark.django_db

PEOPLE = "People in the picture: write a whole number from 1 to 12."
USED_UP = "The code HARBOUR10 has been used as often as it may be. Choose again without it."


@pytest.fixture
def fair(day):
    """Another day, at a venue of its own that charges 20.00 for travel."""
    venue = builders.a_venue(name="Quay Fair")
    builders.a_surcharge("travel", venue=venue, amount=2000)
    return builders.a_day(on=date(2026, 12, 5), venue=venue, bench=builders.a_bench(name="Tent"))


def times(client, **changes):
    return client.get(reverse("times"), wished(**changes))


def test_a_quote_tells_lines_tax_deposit_and_balance_before_anything_is_asked(client, day):
    builders.a_surcharge(amount=1500)
    builders.a_discount()
    exempt = TaxClass.objects.create(name="Exempt", category="E", rate_bp=0, exemption_reason="Teaching")
    talk = builders.an_extra("Talk", "scan", 1000)
    talk.tax_class = exempt
    talk.save()

    page = Page(times(client, sitters="3", code="harbour 10", **{f"extra_{talk.pk}": "1"}))

    # 85.00 + 10.00 + 2 × 15.00 = 125.00, less a tenth: 11.50 at 23 % and 1.00 exempt. 23 % is in 103.50:
    # nets 69.11 + 24.39 - 9.35 = 84.15, of which 19.35.
    for told in (
        "3 people in the picture.",
        "2 × Further sitter €30.00",
        "Neighbours -€11.50",
        "Neighbours -€1.00",
        "Together €112.50",
        "with 23 % tax in it €19.35",
        "exempt from tax €9.00",
        "Deposit now €56.25",
        "When you collect €56.25",
    ):
        assert told in page.text


def test_a_wish_is_carried_to_the_order_with_its_people_and_its_code(client, day):
    builders.a_surcharge(amount=1500)
    builders.a_discount()

    order = held_by(hold(client, start=f"{day.pk} {TEN}", sitters="2", code=" harbour10 "))

    assert (order.sitters, [line.text for line in order.lines.all()]) == (
        2,
        ["quarter plate", "Further sitter", "Neighbours"],
    )


def test_days_at_places_that_cost_more_say_so_and_what_makes_it_up(client, fair):
    page = Page(times(client))

    assert (
        "Prices change with the day and the place. These are those of Saturday 28 November 2026" in page.text
    )
    assert "On this day your sitting costs €105.00 , of which €52.50 now." in page.text
    assert "Travel €20.00" in page.text


@pytest.mark.parametrize(
    "typed", ["0", "13", "-1", "two", "1.5", "9" * 5000], ids=["none", "13", "minus", "word", "half", "huge"]
)
def test_a_number_of_people_that_cannot_be_is_said_beside_what_was_typed(client, day, typed):
    response = times(client, sitters=typed)

    page = Page(response)
    assert (response.status_code, page.errors, page.fields["sitters"]) == (400, [PEOPLE], typed)


def test_who_says_no_number_is_one_person(client, day):
    assert held_by(hold(client, start=f"{day.pk} {TEN}", sitters="")).sitters == 1


@pytest.mark.parametrize("path", ["times", "hold"])
def test_a_code_that_nobody_gave_out_is_said_and_everything_typed_is_kept(client, day, path):
    wish = wished(start=f"{day.pk} {TEN}", sitters="2", code="no <such>")

    response = client.get(reverse(path), wish) if path == "times" else client.post(reverse(path), wish)

    page = Page(response)
    assert response.status_code == 400
    assert page.errors == ["There is no discount with the code NO<SUCH>. Check it, or leave it out."]
    assert (page.fields["code"], page.fields["sitters"]) == ("no <such>", "2")
    assert not Order.objects.exists()


def test_a_code_that_was_used_up_since_the_page_was_drawn_is_refused_when_it_is_sent(client, day):
    builders.a_discount(most_uses=1)
    assert times(client, code="HARBOUR10").status_code == 200
    builders.a_placed_order(day, code="HARBOUR10")

    response = hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00", code="HARBOUR10")

    assert (response.status_code, Page(response).errors) == (400, [USED_UP])


def test_a_visitor_who_holds_the_last_use_can_take_another_time_with_it(client, day):
    builders.a_discount(most_uses=1)
    first = held_by(hold(client, start=f"{day.pk} {TEN}", code="HARBOUR10"))

    looked = times(client, code="HARBOUR10")
    second = held_by(hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00", code="HARBOUR10"))

    assert looked.status_code == 200
    assert second != first
    assert list(BenchJob.objects.promised(NOW)) == [second.sitting.bench_job]


def test_the_first_page_tells_of_further_plates_company_and_travel(client, fair):
    SizePrice.objects.filter(size__name="quarter").update(further_amount=6000)
    builders.a_surcharge(amount=1000, venue=fair.venue)
    builders.a_surcharge(amount=1500)

    page = Page(client.get(reverse("home")))

    assert "each further one €60.00" in page.text
    assert "Each further person costs €10.00 to €15.00, depending on the place." in page.text
    assert "€20.00 a sitting for travel." in page.text


def test_the_first_page_shows_the_terms_of_every_place_that_is_open(client, fair):
    Terms.objects.create(
        version="fair-1",
        venue=fair.venue,
        holds_from=date(2026, 1, 1),
        deposit_fixed=1000,
        text="Pay at the tent.",
    )

    page = Page(client.get(reverse("home")))

    assert "Everywhere else One plate is made again" in page.text
    assert "Quay Fair Pay at the tent." in page.text


def test_the_choice_tells_what_a_further_plate_and_company_cost(client, day):
    SizePrice.objects.filter(size=PlateSize.objects.get(name="quarter")).update(further_amount=6000)
    builders.a_surcharge(amount=1500)

    page = Page(client.get(reverse("choose")))

    assert "€85.00, each further one €60.00" in page.text
    assert "How many people are in the picture?" in page.text
    assert "Each further person costs €15.00." in page.text


def test_nothing_to_pay_is_said_in_words(client, day):
    builders.a_discount("GIFT", share_bp=10000)

    page = Page(times(client, code="GIFT"))

    assert "Together €0.00" in page.text
    assert "Deposit now none When you collect nothing" in page.text


def test_the_photographer_sees_how_many_people_come(photographer, day):
    group = builders.a_paid_order(day, sitters=4)
    builders.a_paid_order(day, at=time(14))

    queue = Page(photographer.get(reverse("studio:day", args=[day.pk])))
    order = Page(photographer.get(reverse("studio:order", args=[group.reference])))

    assert queue.text.count("people") == queue.text.count("4 people") == 1
    assert "In the picture 4 people" in order.text
