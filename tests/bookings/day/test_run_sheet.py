"""The papers: their form, the run sheet and the pickup notice.

Outside: PDF/UA-1 (ISO 14289-1, its marks from memory: no validator is at hand, so the papers are "made as" PDF/UA and
checked for language, title, tags, named headers and embedded fonts); cautions and care: trade facts s.7 and s.9.
"""

import io
from datetime import UTC, datetime, time

import pikepdf
import pytest

from bookings.day import run_sheet as documents
from bookings.handover import papers as pickup_notices
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Order
from plates.bench.models import Stage
from tests import builders
from tests.reading.papers import assert_cells_name_their_headers, flowing, of_kind

pytestmark = pytest.mark.django_db
LATER = datetime(2026, 12, 3, 15, 0, tzinfo=UTC)


def every_paper():
    day = builders.a_day()
    order = builders.a_paid_order(day, sizes=["quarter", "half"])
    builders.a_placed_order(day, at=time(12))
    builders.made_plates(order)
    invoice = invoices.issue(order_id=order.pk, now=LATER)
    return {
        "Run sheet, Saturday 28 November 2026, Gannet Lane": documents.run_sheet_pdf(day, now=builders.NOW),
        "Invoice INV-2026-0001, Gannet Lane Plate Rooms": invoice_pdf(invoice),
        f"Pickup notice {order.reference}, Gannet Lane Plate Rooms": pickup_notices.pickup_notice_pdf(
            order, now=LATER
        ),
    }


def test_every_paper_is_tagged_titled_and_in_a_language():
    for title, paper in every_paper().items():
        with pikepdf.open(io.BytesIO(paper)) as opened:
            assert opened.Root.MarkInfo.Marked is True
            assert str(opened.Root.Lang) == "en"
            assert opened.Root.ViewerPreferences.DisplayDocTitle is True
            assert str(opened.docinfo["/Title"]) == title
            with opened.open_metadata() as about:
                assert about["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
                assert about["dc:title"] == title
            assert of_kind(opened, "/H1")
            assert_cells_name_their_headers(opened)


def test_every_paper_carries_its_fonts_and_is_sound():
    for paper in every_paper().values():
        with pikepdf.open(io.BytesIO(paper)) as opened:
            assert opened.check_pdf_syntax() == []
            fonts = [
                each
                for each in opened.objects
                if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/FontDescriptor"
            ]
            assert fonts
            assert [
                str(font.FontName) for font in fonts if not {"/FontFile2", "/FontFile3"} & set(font.keys())
            ] == []


def test_the_run_sheet_lists_sittings_in_promised_order_with_every_planned_minute():
    day = builders.a_day()
    late = builders.a_placed_order(day, at=time(15), name="Abel Nortada", sizes=["whole"], sitters=3)
    early = builders.a_paid_order(
        day, at=time(10), name="Tomé Vidal-Çelik", sizes=["quarter", "sixth"], amount=15000
    )
    builders.a_held_order(day, at=time(12))
    [first, _] = builders.made_plates(early, stage=Stage.WASHING)

    text = flowing(documents.run_sheet_pdf(day, now=builders.NOW))

    assert text.index("10:00 Tomé Vidal-Çelik") < text.index("15:00 Abel Nortada")
    assert "12:00" not in text  # a place held without a name is nobody's sitting yet
    assert f"{early.reference}, over by" in text
    assert f"{first.number} 1. quarter" in text
    for order, opens in ((early, 600), (late, 600)):
        for plate in order.sitting.bench_job.plan["plates"]:
            minutes = [plate[step] for step in ("pour", "tank_in", "tank_out", "develop", "wash_in", "lift")]
            assert " ".join(f"{(opens + at) // 60:02d}:{(opens + at) % 60:02d}" for at in minutes) in text
    assert "All paid." in text
    assert "3 people. Place held, deposit not here yet. Still to pay: €195.00." in text
    assert text.count("people") == 1
    assert "Opens 10:00, closes 18:00, racks empty by 19:15." in text


@pytest.mark.parametrize(
    "caution",
    ["no flame, heater or spark", "goggles and gloves", "Cyanide must never meet acid", "Acid goes into water",
     "Cadmium salts can cause cancer", "tell the sitter before it is fired", "out of the drain",
     "safety sheets and licensed practice"],
)  # fmt: skip
def test_the_run_sheet_hangs_where_the_cautions_are_needed(caution):
    # Trade facts s.9; EUH032 for cyanide with acid.
    assert caution in flowing(documents.run_sheet_pdf(builders.a_day(), now=builders.NOW))


def test_a_day_without_sittings_says_so():
    assert "No sittings are booked on this day." in flowing(
        documents.run_sheet_pdf(builders.a_day(), now=builders.NOW)
    )


def test_the_pickup_notice_names_plates_money_and_hands():
    case = builders.an_extra()
    order = builders.a_paid_order(builders.a_day(), sizes=["quarter", "whole"], extras={case: 1})
    first, second = builders.made_plates(order, now=LATER)

    text = flowing(pickup_notices.pickup_notice_pdf(order, now=LATER))

    assert "For Ines Madrugada. Your plates are washed, dry and varnished." in text
    # 3.25 x 4.25 and 6.5 x 8.5 inches of 25.4 mm, as the trade names them (trade facts s.1).
    assert f"Number {first.number} quarter, 82.6 × 108.0 mm Ready since Thursday 3 December 2026" in text
    assert f"Number {second.number} whole, 165.1 × 215.9 mm Ready since" in text
    assert "Velvet case 1 To go with the plates" in text
    assert "To pay before handing over €155.00" in text  # (85 + 195 + 30) / 2
    assert "Hold it by its edges" in text
    assert "Collected by (name) Signature Date" in text


def test_the_pickup_notice_tells_a_plate_that_is_not_ready_and_one_that_has_gone():
    order = builders.a_paid_order(builders.a_day(), sizes=["quarter", "sixth", "sixth"], amount=21500)
    slots = list(order.sitting.bench_job.slots.all())
    builders.made_plate(slots[0], Stage.HANDED_OVER, LATER)
    builders.made_plate(slots[1], Stage.DRYING, LATER)

    text = flowing(pickup_notices.pickup_notice_pdf(Order.objects.get(pk=order.pk), now=LATER))

    assert "Not every plate of this order is ready yet" in text
    assert "Handed over" in text
    assert "Not ready: drying" in text
    assert "No number yet sixth" in text
    assert "Not made yet" in text
    assert "To pay Nothing" in text


def test_a_name_is_printed_and_never_read_as_a_tag():
    order = builders.a_paid_order(builders.a_day(), name='<img src="https://example.org/a.png"> & Ines')

    text = flowing(pickup_notices.pickup_notice_pdf(order, now=LATER))

    assert 'For <img src="https://example.org/a.png"> & Ines.' in text
