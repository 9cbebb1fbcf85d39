"""Letters in the studio's own words: they say the same in both forms, and cannot do what a letter must not do."""

import html
import re

import pytest

from bookings.changes.services import sittings as changes
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.letters.models import Wording
from bookings.letters.placeholders import LETTERS, PLACEHOLDERS
from bookings.letters.services import wordings
from bookings.outbox.models import NoticeKind
from tests import builders
from tests.builders import NOW
from tests.reading.letters import a_notice, flowing, parsed, plain, the_letter, words_of_html

pytestmark = pytest.mark.django_db

EVERYTHING = {
    kind: "\n\n".join(f"{name}:\n{{{name}}}" for name in letter.known) for kind, letter in LETTERS.items()
}
# The letter of a parcel names it by its occasion, and is looked at where parcels are.
OF_THEIR_OWN = {NoticeKind.INVOICE, NoticeKind.POSTED}
ABOUT_A_SITTING = [
    kind for kind, letter in LETTERS.items() if "day" in letter.known and kind not in OF_THEIR_OWN
]


def say(kind, text="", subject=""):
    wordings.save_wording(kind=kind, subject=subject, text=text, now=NOW)


def test_every_kind_of_letter_can_be_put_into_other_words():
    assert set(LETTERS) == set(NoticeKind)
    assert {name for letter in LETTERS.values() for name in letter.known} == set(PLACEHOLDERS)
    assert all(set(letter.needed) <= set(letter.known) for letter in LETTERS.values())


def test_both_forms_say_the_same_with_every_placeholder():
    order = builders.a_paid_order(builders.a_day(), extras={builders.an_extra(): 2})
    builders.made_plates(order)

    for kind in ABOUT_A_SITTING:
        say(kind, EVERYTHING[kind])
        letter = parsed(a_notice(order, kind))
        assert words_of_html(letter) == [word for word in plain(letter).split() if word != "-"], kind
        assert re.search(r"\{[a-z_]*\}", plain(letter)) is None


def test_the_words_are_those_that_were_kept():
    order = builders.a_paid_order(builders.a_day())
    say(
        NoticeKind.DAY_BEFORE, "We look forward to {day}.\n\n- Come to {venue}", "See you at {time}, {client}"
    )

    letter = parsed(a_notice(order, NoticeKind.DAY_BEFORE))

    assert letter["Subject"] == "See you at 10:00, Ines Madrugada"
    assert flowing(letter).startswith(
        "Dear Ines Madrugada, We look forward to Saturday 28 November 2026. - Come to Gannet Lane, 4 Gannet Lane,"
    )
    assert "Your sitting is close" not in flowing(letter)


def test_an_empty_part_is_said_in_ours():
    order = builders.a_paid_order(builders.a_day())
    say(NoticeKind.CONFIRMED, subject="Done!")

    letter = the_letter(order, NoticeKind.CONFIRMED)

    assert letter["Subject"] == "Done!"
    assert "Your sitting is confirmed." in flowing(letter)


@pytest.mark.parametrize("kind", [NoticeKind.CONFIRMED, NoticeKind.DAY_BEFORE])
def test_cautions_stay_below_any_other_words(kind):
    order = builders.a_paid_order(builders.a_day())
    say(kind, "{news} {when}")

    letter = parsed(a_notice(order, kind))

    assert "photosensitive epilepsy" in flowing(letter)
    assert "epilepsy," in words_of_html(letter)


def test_a_name_is_shown_and_never_run_nor_filled_in():
    order = builders.a_paid_order(builders.a_day(), name='<script>alert(1)</script> {link} "&')
    say(NoticeKind.CONFIRMED, "{client} <b>{news}</b> {when} {venue}", "{client}\r\nBcc: other@example.org")

    letter = the_letter(order, NoticeKind.CONFIRMED)

    shown = letter.get_body(("html",)).get_content()
    said = '<script>alert(1)</script> {link} "& <b>Your sitting is confirmed.</b>'
    assert html.escape(said) in shown
    assert "<script" not in shown
    assert said in flowing(letter)
    assert letter["Bcc"] is None
    assert letter["Subject"] == '<script>alert(1)</script> {link} "& Bcc: other@example.org'


def test_news_tells_a_move_and_who_cancelled():
    day = builders.a_day()
    order = builders.a_paid_order(day)
    say(NoticeKind.CONFIRMED, "{news} {when} {venue}")
    say(NoticeKind.CANCELLED, "{news} {when} kept {kept}, back {returned}")
    changes.move(order_id=order.pk, day_id=day.pk, starts_at=builders.NOW.replace(day=28, hour=12), now=NOW)
    moved = flowing(the_letter(order, NoticeKind.CONFIRMED, occasion="1"))

    changes.cancel(order_id=order.pk, now=NOW)

    assert "Your sitting has a new time. The old one no longer holds." in moved
    cancelled = flowing(the_letter(order, NoticeKind.CANCELLED))
    assert "its place has gone back to the diary." in cancelled
    assert "kept €0.00, back €42.50" in cancelled


def test_a_credit_note_keeps_our_words():
    order = builders.a_paid_order(builders.a_day())
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    note = credit_notes.issue(invoice_id=invoice.pk, reason="A mistake", line_ids=None, now=NOW)
    say(NoticeKind.INVOICE, "Please find {number} over {amount}.")

    texts = [flowing(parsed(invoices.mail(invoice_id=each.pk, now=NOW))) for each in (invoice, note)]

    assert f"Please find {invoice.label} over €85.00." in texts[0]
    assert "With this letter comes credit note" in texts[1]


def test_a_voucher_is_sent_in_other_words():
    voucher = builders.a_voucher(for_name="")
    say(NoticeKind.VOUCHER, "Worth {value}, code {code}\nFor {receiver}")

    text = flowing(parsed(voucher.notices.get()))

    assert "Dear Abel Nortada, Worth €100.00, code" in text
    assert "For" not in text


def test_back_to_our_words():
    order = builders.a_paid_order(builders.a_day())
    say(NoticeKind.CONFIRMED, subject="Done!")

    say(NoticeKind.CONFIRMED)

    assert not Wording.objects.exists()
    assert (
        the_letter(order, NoticeKind.CONFIRMED)["Subject"]
        == "Your sitting on Saturday 28 November 2026 is confirmed"
    )
