"""The rack sheet and the labels: what stands on them, how large, and on which sheet.

Outside: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 inches, in points of 1/72 inch; Liberation Serif reaches
from 0.891 of its size above the line to 0.216 below it (font tables, from memory): the height that poppler tells.
"""

import io
import re
import subprocess
from datetime import UTC, datetime, time, timedelta

import pikepdf
import pytest

from bookings.common.paper import Paper
from bookings.day import run_sheet as documents
from bookings.handover import labels as wall
from plates.bench.models import Plate, PlateSlot, Stage
from plates.ledger.services import events as ledger
from plates.ledger.services import facts
from plates.ledger.services.facts import Noted
from tests import builders
from tests.reading.papers import assert_cells_name_their_headers, flowing, of_kind, off_the_page, pages

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, tzinfo=UTC)
SHEETS = {Paper.A4: (210 / 25.4 * 72, 297 / 25.4 * 72), Paper.LETTER: (612, 792)}
ASCENT_AND_DESCENT = 0.891 + 0.216


@pytest.fixture
def day():
    return builders.a_day()


def label_of(plate, **options):
    return wall.label_pdf(Plate.objects.select_related("size", "slot__job__day").get(pk=plate.pk), **options)


def a_plate(day, *, size="quarter", stage=Stage.WASHING, at=TEN, name="Ines Madrugada"):
    order = builders.a_paid_order(day, sizes=[size], name=name)
    return builders.made_plate(PlateSlot.objects.get(job=order.sitting.bench_job), stage, at)


def sheet_of(paper):
    with pikepdf.open(io.BytesIO(paper)) as opened:
        return tuple(float(side) for side in opened.pages[0].mediabox[2:])


def type_sizes(paper, pattern):
    """The size in points of every word that matches, by its height."""
    told = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=paper, capture_output=True, check=True)
    words = re.findall(r'yMin="([\d.]+)" .*?yMax="([\d.]+)">(.*?)</word>', told.stdout.decode())
    return [
        (float(low) - float(high)) / ASCENT_AND_DESCENT
        for high, low, word in words
        if re.fullmatch(pattern, word)
    ]


def papers(day, plate, paper):
    return [
        documents.run_sheet_pdf(day, now=TEN, paper=paper),
        wall.rack_sheet_pdf(day, now=TEN, paper=paper),
        label_of(plate, paper=paper),
    ]


@pytest.mark.parametrize("sheet", Paper)
def test_each_paper_lies_whole_on_its_sheet(day, sheet):
    plate = a_plate(day)

    for paper in papers(day, plate, sheet):
        assert sheet_of(paper) == pytest.approx(SHEETS[sheet], abs=0.5)
        assert off_the_page(paper) == []


@pytest.mark.parametrize(
    ("country", "sheet"), [("PT", Paper.A4), ("GB", Paper.A4), ("us", Paper.LETTER), ("CA", Paper.LETTER),
                           ("MX", Paper.LETTER)],
)  # fmt: skip
def test_the_sheet_is_the_usual_one_of_the_studio_s_country(day, country, sheet):
    plate = a_plate(day)
    builders.a_studio(country=country)

    for paper in papers(day, plate, None):
        assert sheet_of(paper) == pytest.approx(SHEETS[sheet], abs=0.5)


def test_the_papers_are_tagged_titled_and_sound(day):
    plate = a_plate(day)

    for paper in papers(day, plate, Paper.A4):
        with pikepdf.open(io.BytesIO(paper)) as opened:
            assert opened.check_pdf_syntax() == []
            assert str(opened.docinfo["/Title"])
            assert of_kind(opened, "/H1")
            if of_kind(opened, "/TD"):
                assert_cells_name_their_headers(opened)


def test_times_on_the_wall_can_be_read_at_a_metre(day):
    # 14 points at least: capitals over 3.3 mm, a three-hundredth of a metre (a sign painter's rule, from memory).
    order = builders.a_paid_order(day, sizes=["quarter", "half"])
    run_sheet = documents.run_sheet_pdf(day, now=TEN)
    rack_sheet = wall.rack_sheet_pdf(day, now=TEN)

    for plan in order.sitting.bench_job.plan["plates"]:
        lift = TEN + timedelta(minutes=plan["wash_in"] + 60)
        assert min(type_sizes(rack_sheet, rf"{lift:%H:%M},?")) >= 14
        pour = TEN + timedelta(minutes=plan["pour"])
        assert min(type_sizes(run_sheet, f"{pour:%H:%M}")) >= 14


def test_the_rack_sheet_tells_place_window_and_what_has_happened(day):
    plate = a_plate(day, stage=Stage.DRYING, at=TEN + timedelta(minutes=40))
    builders.a_paid_order(day, at=time(14), sizes=["whole"], name="Tomé Vidal-Çelik")

    text = flowing(wall.rack_sheet_pdf(day, now=TEN + timedelta(minutes=41)))

    # In the wash at 10:40, so from 11:40 to 12:40 (60 and 120 minutes, design s.3); on the rack at 10:40 as well.
    assert re.search(rf"1 {plate.number} quarter 10:40 11:40, 12:40 10:40", text)
    assert "10:00 Ines" in text
    assert re.search(r"1 ?\+ ?2 whole", text)
    assert "14:00 Tomé" in text
    assert "count 60 minutes at least and 120 at most" in text


def test_plates_of_the_day_before_are_on_the_sheet_too(day):
    before = builders.a_day(on=builders.SATURDAY - timedelta(days=1))
    plate = a_plate(before, stage=Stage.VARNISHED, at=TEN - timedelta(hours=20))

    text = flowing(wall.rack_sheet_pdf(day, now=TEN))

    assert f"Plate {plate.number}, quarter: varnished since Friday 27 November 2026, 14:00" in text
    assert "No plates are promised on this day." in text


@pytest.mark.parametrize("caution", ["gloves and goggles", "poison gas", "no flame, heater or spark",
                                     "out of the drain", "licensed practice"])  # fmt: skip
def test_the_rack_sheet_hangs_where_its_cautions_are_needed(day, caution):
    # Trade facts s.9.
    assert caution in flowing(wall.rack_sheet_pdf(day, now=TEN))


def test_a_full_day_takes_more_sheets_and_repeats_its_headings(day):
    for hour in range(10, 17):
        builders.a_paid_order(
            day, at=time(hour), sizes=["quarter", "quarter"], name="Wren " + "Achterberg-" * 6
        )

    paper = wall.rack_sheet_pdf(day, now=TEN)

    assert pages(paper) >= 2
    assert off_the_page(paper) == []
    assert flowing(paper).count("Lift from, by") == pages(paper)


def test_a_label_tells_number_size_date_and_batch_and_no_name(day):
    plate = a_plate(day)
    facts.note(plate_id=plate.pk, noted=Noted(batch="C 14"), operator=None, now=TEN)

    text = flowing(label_of(plate))

    # 3.25 x 4.25 inches in whole millimetres (trade facts s.1). Once on each of the two labels.
    assert text.count("Quarter, 83 × 108 mm") == 2
    assert text.count("28 Nov 2026") == 2
    assert "Batch C 14" in text
    assert "Batch of collodion C 14" in text
    assert "Madrugada" not in text


def test_a_plate_without_a_batch_has_a_label_without_one(day):
    assert "Batch" not in flowing(label_of(a_plate(day)))


@pytest.mark.parametrize(
    ("sides", "width"), [((165, 216), 60), ((63, 76), 57), ((26, 40), 20), ((25, 40), None)]
)
def test_the_label_on_the_back_leaves_a_margin_of_the_plate_free(sides, width):
    # Three millimetres on each side, sixty at most: this house's own choice.
    size = builders.a_size()
    size.width_mm, size.height_mm = sides

    assert wall.back_width_mm(size) == width


def test_a_plate_that_is_too_small_has_its_label_on_the_sleeve_only(day):
    plate = a_plate(day)
    plate.size.width_mm = 20
    plate.size.save()

    text = flowing(label_of(plate))

    assert text.count("20 × 108 mm") == 1
    assert "too small for a label of its own" in text


def test_the_labels_of_a_day_are_on_one_paper_by_number_without_those_given_up(day):
    plates = builders.made_plates(builders.a_paid_order(day, sizes=["quarter"] * 3), now=TEN)
    facts.note(plate_id=plates[2].pk, noted=Noted(batch="C 14"), operator=None, now=TEN)
    ledger.spoil(plate_id=plates[1].pk, reason="damaged", note="", operator=None, now=TEN)
    a_plate(builders.a_day(on=builders.SATURDAY + timedelta(days=1)))

    paper = wall.day_labels_pdf(day)

    # Two labels a plate: for its back and for its sleeve.
    assert re.findall(r"Plate (\d)", flowing(paper)) == ["1", "1", "3", "3"]
    assert "Batch of collodion C 14" in flowing(paper)
    assert "Madrugada" not in flowing(paper)
    assert off_the_page(paper) == []


def test_the_labels_of_a_day_ask_as_often_for_many_plates_as_for_one(day, django_assert_num_queries):
    builders.made_plates(builders.a_paid_order(day, sizes=["quarter"] * 3), now=TEN)

    with django_assert_num_queries(2):
        wall.day_labels_pdf(day)


def test_a_day_without_plates_has_no_labels_and_says_so(day):
    assert "No plate of this day has been made yet." in flowing(wall.day_labels_pdf(day))
