"""The voucher as a paper and as a letter, read back with poppler, pikepdf and the standard library's `email`.

Outside: PDF/UA-1 (ISO 14289-1, its marks from memory), as in `test_documents`; RFC 5322 and RFC 3834 for the letter.
"""

import io
from datetime import timedelta

import pikepdf
import pytest
from django.core import mail as outbox

from bookings.day.selectors.alerts import open_troubles
from bookings.letters.services import sending as notices
from bookings.outbox.models import Notice
from bookings.vouchers.models import Voucher
from bookings.vouchers.paper import voucher_pdf
from bookings.vouchers.services import selling as vouchers
from tests import builders
from tests.builders import NOW
from tests.reading.letters import flowing as flowing_letter
from tests.reading.letters import parsed, plain, words_of_html
from tests.reading.papers import flowing, of_kind, off_the_page, pages

pytestmark = pytest.mark.django_db

MESSAGE = "For the two of you, on your tenth winter in Saltmarrow."


@pytest.fixture
def voucher(monkeypatch):
    # What was sold keeps its code, so it is sold with this one.
    with monkeypatch.context() as selling:
        selling.setattr(vouchers, "new_code", lambda length: "ABCDEFGH2345")
        return builders.a_voucher(message=MESSAGE)


def the_letter(voucher):
    return parsed(Notice.objects.get(voucher=voucher))


def test_the_paper_says_what_it_is_worth_to_whom_and_until_when(voucher):
    text = flowing(voucher_pdf(voucher))

    for words in (
        "For Ines, from Abel Nortada", MESSAGE, "Gift voucher for €100.00", "ABCD-EFGH-2345",
        "It can be used until Tuesday 20 November 2029, that day included.", "4 Gannet Lane, Saltmarrow",
        "type the code where the deposit is asked for", "rooms@example.org",
    ):  # fmt: skip
        assert words in text


def test_a_voucher_without_end_for_nobody_in_particular_says_so_and_no_word_is_read_as_a_tag():
    builders.a_studio(voucher_months=None)

    text = flowing(
        voucher_pdf(builders.a_voucher(for_name="", message='<img src="https://example.org/a.png"> & you'))
    )

    assert "From Abel Nortada" in text
    assert "It can be used at any time." in text
    assert '<img src="https://example.org/a.png"> & you' in text


def test_the_paper_is_tagged_titled_in_a_language_and_carries_its_fonts(voucher):
    with pikepdf.open(io.BytesIO(voucher_pdf(voucher))) as opened:
        assert opened.check_pdf_syntax() == []
        assert (opened.Root.MarkInfo.Marked, str(opened.Root.Lang)) == (True, "en")
        assert str(opened.docinfo["/Title"]) == "Gift voucher, Gannet Lane Plate Rooms"
        with opened.open_metadata() as about:
            assert about["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
        assert len(of_kind(opened, "/H1")) == 1
        assert len(of_kind(opened, "/LI")) == 3
        fonts = of_type(opened, "/FontDescriptor")
        assert fonts
        assert all({"/FontFile2", "/FontFile3"} & set(font.keys()) for font in fonts)


def of_type(opened, kind):
    return [
        each for each in opened.objects if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == kind
    ]


def test_the_longest_words_stay_on_one_sheet_which_is_that_of_the_country(voucher):
    Voucher.objects.update(message="m" * 300, for_name="W" * 120, buyer_name="W" * 120)
    paper = voucher_pdf(Voucher.objects.get())
    assert (pages(paper), off_the_page(paper)) == (1, [])
    builders.a_studio(country="US")

    with pikepdf.open(io.BytesIO(voucher_pdf(voucher))) as opened:
        # ANSI/ASME Y14.1: 8.5 by 11 inches of 72 points.
        assert [round(float(side)) for side in opened.pages[0].MediaBox] == [0, 0, 612, 792]


def test_the_letter_goes_to_the_buyer_with_the_paper_and_the_same_in_plain_text_and_html(voucher):
    letter = the_letter(voucher)

    assert words_of_html(letter) == [word for word in plain(letter).split() if word != "-"]
    assert "Worth: €100.00 For: Ines Code: ABCD-EFGH-2345" in flowing_letter(letter)
    assert (letter["Subject"], letter["Auto-Submitted"]) == (
        "Your gift voucher for €100.00",
        "auto-generated",
    )
    [to] = letter["To"].addresses
    assert (to.display_name, to.addr_spec) == ("Abel Nortada", "abel@example.org")
    [paper] = [part for part in letter.walk() if part.get_content_type() == "application/pdf"]
    assert paper.get_filename() == "voucher.pdf"
    assert paper.get_payload(decode=True) == voucher_pdf(voucher)


@pytest.mark.parametrize(
    "name",
    ["Abel\r\nBcc: other@example.org", 'Abel" <other@example.org>, "Vaz'],
    ids=["a header", "a mailbox"],
)
def test_a_hostile_name_adds_no_line_and_no_reader(name):
    letter = the_letter(builders.a_voucher(buyer_name=name))

    assert letter["Bcc"] is None
    assert [address.addr_spec for address in letter["To"].addresses] == ["abel@example.org"]


def test_the_letter_is_sent_once_unless_the_voucher_was_taken_back_and_a_failure_is_put_before_the_owner(
    voucher,
):
    for minute in range(2):
        notices.send_due(now=NOW + timedelta(minutes=minute))
    [sent] = outbox.outbox
    assert sent.extra_headers["Message-ID"] == Notice.objects.get().message_id
    assert not open_troubles(now=NOW)

    gone = builders.a_voucher()
    vouchers.withdraw(voucher_id=gone.pk, now=NOW)
    Notice.objects.filter(voucher=voucher).update(given_up_at=NOW, sent_at=None)

    assert notices.send_due(now=NOW) == 0
    assert Notice.objects.get(voucher=gone).withdrawn_at == NOW
    assert open_troubles(now=NOW).unsent_vouchers == [Notice.objects.get(voucher=voucher)]
