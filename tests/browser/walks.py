"""What a visitor and the photographer do, step by step, with nothing but links, fields and buttons."""

import re

from playwright.sync_api import expect

DETAILS = {"Name": "Ines Madrugada", "Email": "ines@example.org", "Phone (if you like)": "+351 555 010 010"}


def field(page, label):
    return page.get_by_role("textbox", name=label, exact=True)


def box(page, label):
    return page.get_by_role("checkbox", name=label, exact=True)


def choose_plates(page, **counts):
    """From the first page to the start times; sizes by their names."""
    page.goto("/")
    page.get_by_role("link", name="Choose plates and a time").click()
    for name, count in counts.items():
        page.get_by_label(re.compile(f"^{name}", re.I)).fill(str(count))
    page.get_by_role("button", name="See the times").click()


def press_start(page, clock):
    """Press a start time of the first day that offers it."""
    page.get_by_role("button", name=re.compile(f"^{clock}")).first.click()


def fill_details(page, **changes):
    for label, words in (DETAILS | changes).items():
        field(page, label).fill(words)


def send_details(page):
    page.get_by_role("button", name="Keep this time and see the deposit").click()


def sign_in(page, username="operator", password="a-long-practice-secret"):
    page.goto("/studio/")
    page.get_by_label("Username").fill(username)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()


def press(page, words, *, plate):
    """Press what is next for one plate of the sitting (1 is the first), and see the queue again."""
    row = page.locator("article .presses > li").nth(plate - 1)
    row.get_by_role("button", name=re.compile(f"^{words}")).click()
    expect(page).to_have_url(re.compile(r"/studio/day/\d+/#sitting-\d+$"))


def spoil(page, reason, *, plate):
    row = page.locator("article .presses > li").nth(plate - 1)
    row.get_by_role("link", name=re.compile("^Spoilt")).click()
    page.get_by_label(reason).check()
    page.get_by_role("button", name=re.compile("is spoilt$")).click()


def record_payment(page, amount, method):
    page.get_by_label("Amount (EUR)").fill(amount)
    page.get_by_label("Method").select_option(label=method)
    page.get_by_role("button", name="Enter it in the ledger").click()
