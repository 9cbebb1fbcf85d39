"""What an operator presses in the tent, and what the ledger says of it afterwards."""

from datetime import UTC, datetime, timedelta

from playwright.sync_api import expect

from plates.bench.models import Plate

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
WAY = ["poured", "sensitised", "exposed", "developed", "fixed", "washing"]


def step(page, clock, word):
    """Press the one large button, which says `word`, a second after the last press: a second tap is not heard."""
    button = page.locator("button.step")
    expect(button).to_have_text(word)
    passed(page, clock, seconds=1)
    button.click()


def passed(page, clock, **time_gone):
    """Let time go by, in the studio and in the telephone."""
    gone = timedelta(**time_gone)
    clock.shift(gone)
    page.clock.fast_forward(int(gone.total_seconds() * 1000))
    # A question that was on its way while the clocks were moved tells a wrong time; the one after it does not.
    page.evaluate("async () => { await tent.store.send(); await tent.store.send() }")


def all_sent(page):
    expect(page.locator("body")).to_have_attribute("data-waiting", "0")


def stages():
    return [
        list(plate.events.order_by("id").values_list("stage", flat=True)) for plate in Plate.objects.all()
    ]
