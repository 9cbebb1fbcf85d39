"""Who may do what at every address of the site: visitor, client with a link, stranger, photographer x method.

An address that is missing in the table fails. TRACE is refused everywhere (ASVS 5.0, 13.4.4: quality-bars s.1 #14).
"""

from datetime import time
from uuid import uuid4

import pytest
from django.contrib import admin
from django.contrib.auth.models import User
from django.test import Client
from django.urls import NoReverseMatch, URLPattern, get_resolver, reverse
from django.utils import timezone

from bookings import line_links, links, step_up_links, stop_links, waiting_links
from bookings.models import (
    CardNotice,
    HandedPlate,
    Handover,
    Invoice,
    InvoiceRun,
    Order,
    Parcel,
    Payment,
    Purpose,
    Receipt,
    Voucher,
)
from bookings.services import invoices, step_up
from plates.models import ClosedDay, Plate, PlateEvent, PlateSlot
from plates.services import finishing
from tests import builders
from tests.bookings.services.card_worlds import a_page, paid, take
from tests.builders import NOW
from tests.plates import stores

pytestmark = pytest.mark.django_db

METHODS = ["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE"]
READ, WRITE, BOTH = {"GET", "HEAD"}, {"POST"}, {"GET", "HEAD", "POST"}
# Django's own sign-in page takes PUT as it takes POST, and tells its methods to OPTIONS.
OF_DJANGO = {"login": BOTH | {"PUT", "OPTIONS"}, "logout": {"POST", "OPTIONS"}}

PUBLIC = {"home": READ, "choose": READ, "times": READ, "hold": WRITE, "wait": BOTH} | OF_DJANGO
PUBLIC |= {"give_voucher": BOTH, "card_messages": WRITE, "calendar_feed": READ}
WITH_A_LINK = {
    "details": BOTH,
    "deposit": READ,
    "practice_card": WRITE,
    "pay_by_card": WRITE,
    "card_thanks": READ,
    "sitting_card": WRITE,
    "sitting_card_thanks": READ,
    "sitting": READ,
    "sitting_calendar": READ,
    "sitting_ask": WRITE,
    "step_up": BOTH,
    "use_voucher": WRITE,
    "voucher": READ,
    "voucher_paper": READ,
    "voucher_practice_card": WRITE,
    "pay_voucher_by_card": WRITE,
    "line_join": BOTH,
    "line_large": READ,
    "line_place": READ,
    "line_leave": WRITE,
    "waiting": READ,
    "waiting_leave": WRITE,
    "stop_reminders": BOTH,
}
# Open for a few minutes to a browser in which a mailed link was opened.
MINE = {
    "mine_change": READ,
    "mine_move": WRITE,
    "mine_add_plate": WRITE,
    "mine_by_post": WRITE,
    "mine_cancel": WRITE,
    "mine_named": WRITE,
    "mine_unnamed": WRITE,
    "mine_papers": READ,
    "mine_invoice": READ,
    "mine_picture": READ,
    "mine_data": BOTH,
    "mine_copy": READ,
    "mine_erase": WRITE,
}
SITTINGS = [name for name in WITH_A_LINK if name.startswith("sitting")]
STUDIO = {
    "studio:today": READ,
    "studio:day": READ,
    "studio:late": READ,
    "studio:late_again": WRITE,
    "studio:late_tell_all": WRITE,
    "studio:late_tell": WRITE,
    "studio:run_sheet": READ,
    "studio:rack_sheet": READ,
    "studio:day_labels": READ,
    "studio:plate_label": READ,
    "studio:plate_order": READ,
    "studio:pour": WRITE,
    "studio:press": WRITE,
    "studio:take_back": WRITE,
    "studio:mark": WRITE,
    "studio:take_mark_back": WRITE,
    "studio:state": READ,
    "studio:line": BOTH,
    "studio:line_sheet": READ,
    "studio:line_keep": WRITE,
    "studio:line_call": WRITE,
    "studio:line_come": BOTH,
    "studio:line_strike": WRITE,
    "studio:line_take_back": WRITE,
    "studio:waiting_list": READ,
    "studio:waiting_strike": WRITE,
    "studio:spoil": BOTH,
    "studio:telephone": BOTH,
    "studio:telephone_stop": WRITE,
    "studio:planner": BOTH,
    "studio:plan_day": READ,
    "studio:what_if": READ,
    "studio:chances": READ,
    "studio:cards": READ,
    "studio:card_looked": WRITE,
    "studio:card_give_back": BOTH,
    "studio:cash": BOTH,
    "studio:finishing": BOTH,
    "studio:closed_days": BOTH,
    "studio:close_holidays": WRITE,
    "studio:open_again": WRITE,
    "studio:handovers": READ,
    "studio:hand_over": BOTH,
    "studio:post": BOTH,
    "studio:packing_slip": READ,
    "studio:parcel": BOTH,
    "studio:orders": READ,
    "studio:order": BOTH,
    "studio:issue": WRITE,
    "studio:made_out_to": BOTH,
    "studio:invoice": READ,
    "studio:einvoice": READ,
    "studio:take_back_invoice": BOTH,
    "studio:pickup_notice": READ,
    "studio:letters_again": BOTH,
    "studio:wordings": READ,
    "studio:wording": BOTH,
    "studio:cancel": BOTH,
    "studio:move": BOTH,
    "studio:books": READ,
    "studio:open_invoices": READ,
    "studio:settle": WRITE,
    "studio:mail_paper": WRITE,
    "studio:to_invoice": BOTH,
    "studio:invoice_run": READ,
    "studio:invoice_run_state": READ,
    "studio:invoice_run_papers": READ,
    "studio:numbers": READ,
    "studio:numbers_file": READ,
    "studio:documents_file": READ,
    "studio:payments_file": READ,
    "studio:kept_by_law": BOTH,
    "studio:statements": READ,
    "studio:statement": READ,
    "studio:statement_paper": READ,
    "studio:redeem": WRITE,
    "studio:give_back": WRITE,
    "studio:vouchers": READ,
    "studio:sell_voucher": BOTH,
    "studio:voucher": BOTH,
    "studio:voucher_paper": READ,
    "studio:voucher_again": WRITE,
    "studio:withdraw_voucher": WRITE,
    "studio:rebook": BOTH,
    "plates:plates": READ,
    "plates:export": READ,
    "plates:plate": BOTH,
    "plates:keep_picture": WRITE,
    "plates:picture": READ,
    "plates:bench": READ,
    "plates:timings": BOTH,
    "plates:tent": READ,
    "plates:tent_state": READ,
    "plates:tent_press": WRITE,
    "plates:tent_worker": READ,
    "plates:tent_light": READ,
}
STORE_ROOM = {
    "plates:store": READ,
    "plates:recipes": READ,
    "plates:new_recipe": BOTH,
    "plates:own_recipe": BOTH,
    "plates:mix": BOTH,
    "plates:batch": READ,
    "plates:batch_move": WRITE,
    "plates:batch_days": WRITE,
    "plates:batch_end": WRITE,
    "plates:bath": READ,
    "plates:bath_read": WRITE,
    "plates:bath_care": WRITE,
    "plates:supplies": READ,
    "plates:new_supply": BOTH,
    "plates:change_supply": BOTH,
    "plates:supply": READ,
    "plates:supply_move": WRITE,
    "plates:supply_seen": WRITE,
    "plates:shopping": READ,
    "plates:costs": READ,
    "plates:safety": BOTH,
    "plates:batch_label": READ,
    "plates:substance_label": READ,
    "plates:waste": BOTH,
    "plates:mark_container": WRITE,
    "plates:note_clearing": WRITE,
}
STUDIO |= STORE_ROOM
TABLE = PUBLIC | WITH_A_LINK | MINE | STUDIO


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
    """A real address for every name: everything that it points at is there."""
    day = builders.a_day()
    order = builders.a_paid_order(day)
    plate = builders.made_plates(order)[0]
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    run = InvoiceRun.objects.create(asked_at=NOW, asked_by=User.objects.create_user("clerk"), finished_at=NOW)
    held = builders.a_held_order(day, at=time(12))
    checkout, sitting = links.checkout_token(held), links.sitting_token(order)
    arguments = {
        "day_id": day.pk, "slot_id": PlateSlot.objects.first().pk, "plate_id": plate.pk, "number": plate.number,
        "reference": order.reference, "bench_id": day.bench_day.bench_id, "bench_day_id": day.bench_day_id,
        "sitting_id": order.sitting.pk, "invoice_id": invoice.pk, "run_id": run.pk, "client_id": order.client_id,
    }  # fmt: skip
    arguments["kind"] = "confirmed"
    page = a_page(order)
    take(paid())
    arguments |= {"page_id": page.pk, "notice_id": CardNotice.objects.get().pk}
    place = builders.a_line_place(day)
    arguments |= {"place_id": place.pk, "invoice_id": Invoice.objects.get().pk}
    tokens = dict.fromkeys(("sitting", "sitting_calendar", "sitting_ask"), sitting)
    asked = step_up.ask(order_id=order.pk, purpose=Purpose.DATA, now=timezone.now())
    tokens["step_up"] = step_up_links.token(asked)
    arguments["place_id"] = place.pk
    arguments["secret"] = "guessed"
    arguments |= stores.some_ids() | {"key": "ether"}
    voucher = builders.a_voucher()
    arguments["voucher_id"] = voucher.pk
    arguments |= {"closed_day_id": a_closed_day().pk, "parcel_id": a_parcel(order, plate).pk}
    tokens = dict.fromkeys(SITTINGS, sitting)
    tokens |= dict.fromkeys(
        ("voucher", "voucher_paper", "voucher_practice_card", "pay_voucher_by_card"),
        links.voucher_token(voucher),
    )
    waits = builders.a_waiting(day)
    arguments["waiting_id"] = waits.pk
    tokens |= dict.fromkeys(("waiting", "waiting_leave"), waiting_links.token(waits))
    tokens |= dict.fromkeys(("line_join", "line_large"), line_links.line_token(day))
    tokens |= dict.fromkeys(("line_place", "line_leave"), line_links.place_token(place))
    tokens["stop_reminders"] = stop_links.token(order.client.email)
    return {name: address(name, arguments | {"token": tokens.get(name, checkout)}) for name in TABLE}


def a_closed_day():
    finishing.close(days={builders.SATURDAY: "Fair"})
    return ClosedDay.objects.get()


def a_parcel(order, plate):
    """The plate has left by post."""
    given = Handover.objects.create(order=order, to="post", by_code=False, at=NOW, press=uuid4())
    HandedPlate.objects.create(handover=given, event=plate.events.last())
    Receipt.objects.create(handover=given)
    return Parcel.objects.create(handover=given, carrier="Gull", number="GL 1")


def address(name, arguments):
    """The address of `name`, given the one of `arguments` that it asks for, if any."""
    for wanted in [{}, *({key: value} for key, value in arguments.items())]:
        try:
            return reverse(name, kwargs=wanted)
        except NoReverseMatch:
            continue
    raise AssertionError(f"what does {name} ask for?")


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

    answers = {
        method: {
            who.generic(method, page).status_code for who in (owner, outsider) for page in set_up_pages()
        }
        for method in METHODS
    }

    assert {method for method, found in answers.items() if found == {405}} == set(METHODS) - BOTH
    assert all(405 not in found and max(found) < 500 for method, found in answers.items() if method in BOTH)
