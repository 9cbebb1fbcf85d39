"""One sitting from the first look to the last plate in its owner's hands, without a line of script."""

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest
from icalendar import Calendar
from playwright.sync_api import expect

from tests import builders
from tests.browser import walks
from tests.reading import papers

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

# As they are called out at the bench (common practice, no source).
TO_THE_RACK = [
    "Out of the bath",
    "Exposed",
    "Developed",
    "Fixed",
    "Into the wash",
    "Onto the rack",
    "Varnished",
    "Ready to collect",
]


@pytest.fixture
def studio(operator):
    for name in ("quarter", "half"):
        builders.a_size(name)
    builders.an_extra()
    return builders.a_day()


def booked(page):
    """A visitor books a quarter and a half plate at ten, at first with a wrong address and the cautions unread."""
    walks.choose_plates(page, quarter=1, half=1)
    walks.press_start(page, "10:15")
    put_right_what_was_wrong(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("One thing left: the deposit")
    # Half of 85.00 and 125.00 by the terms of the builders, worked out by hand.
    page.get_by_role("button", name="Pretend to pay €105.00").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your sitting")


def put_right_what_was_wrong(page):
    walks.fill_details(page, Email="ines")
    walks.box(page, "Show my portrait in the studio and its portfolio").check()
    walks.send_details(page)
    expect(page).to_have_title(re.compile("^Put right: "))
    expect(page.locator(".error-summary")).to_be_focused()
    page.get_by_role("link", name="Write an address such as name@example.org.").click()
    expect(walks.field(page, "Email")).to_be_focused()
    for label, words in (walks.DETAILS | {"Email": "ines"}).items():
        expect(walks.field(page, label)).to_have_value(words)
    expect(walks.box(page, "Show my portrait in the studio and its portfolio")).to_be_checked()
    walks.field(page, "Email").fill("ines@example.org")
    page.get_by_role("link", name="Read the cautions and the terms above, then tick this box.").click()
    expect(walks.box(page, "I have read the cautions and the terms")).to_be_focused()
    walks.box(page, "I have read the cautions and the terms").check()
    walks.send_details(page)


def calendar_entry(page):
    with page.expect_download() as fetched:
        page.get_by_role("link", name="Put it in my calendar").click()
    calendar = Calendar.from_ical(Path(fetched.value.path()).read_bytes())
    (entry,) = calendar.walk("VEVENT")
    return entry


def made(page):
    """Both plates are made; the first one fogs and is poured again."""
    walks.press(page, "Pour", plate=1)
    walks.press(page, TO_THE_RACK[0], plate=1)
    walks.spoil(page, "Fogged", plate=1)
    walks.press(page, "Pour again", plate=1)
    walks.press(page, "Pour", plate=2)
    for words in TO_THE_RACK:
        for plate in (1, 2):
            walks.press(page, words, plate=plate)


def paper(page, name):
    """Fetch the paper behind a link, and what it says."""
    address = page.get_by_role("link", name=re.compile(name)).get_attribute("href")
    answer = page.context.request.get(address)
    assert (answer.status, answer.headers["content-type"]) == (200, "application/pdf")
    # ISO 32000-1, 7.5.2: a PDF file begins with its version.
    assert answer.body()[:5] == b"%PDF-"
    assert papers.pages(answer.body()) == 1
    return papers.flowing(answer.body())


def settled(page):
    """A hand-over is refused while money is owed; then the balance comes, and the papers are printed."""
    walks.press(page, "Hand over", plate=1)
    expect(page.get_by_role("alert")).to_contain_text("€105.00 is still owed on order")
    page.get_by_role("link", name=re.compile("^Order ")).click()
    walks.record_payment(page, "105.00", "Cash")
    page.get_by_role("button", name="Issue the invoice").click()
    invoice, notice = paper(page, "^Invoice"), paper(page, "^Pickup notice")
    assert ("€210.00" in invoice, "Ines Madrugada" in invoice, "Ines Madrugada" in notice) == (True,) * 3
    page.get_by_role("link", name="In the queue").click()


def test_a_sitting_goes_from_the_first_look_to_the_hand_over(open_window, studio):
    client, photographer = (open_window(width=360).page for _ in range(2))
    booked(client)
    entry = calendar_entry(client)
    # Lisbon keeps UTC in winter (tz database, Europe/Lisbon).
    assert entry.start.astimezone(UTC) == datetime(2026, 11, 28, 10, 15, tzinfo=UTC)
    assert entry["STATUS"] == "CONFIRMED"
    expect(client.get_by_text("Not poured yet.")).to_have_count(2)

    walks.sign_in(photographer)
    assert "Ines Madrugada" in paper(photographer, "Run sheet")
    made(photographer)
    expect(photographer.get_by_text("Spoilt before: 1")).to_be_visible()
    settled(photographer)
    for plate in (1, 2):
        walks.press(photographer, "Hand over", plate=plate)
    expect(photographer.get_by_text("In its owner’s hands")).to_have_count(2)

    client.reload()
    expect(client.get_by_text(re.compile("^Handed over, since"))).to_have_count(2)
    expect(client.locator(".way [aria-current=step]")).to_have_text(["Handed over, now"] * 2)
    expect(client.get_by_role("heading", name=re.compile("Quarter plate, number 2"))).to_be_visible()
    assert "Madrugada" not in client.content()
