"""The drawing as it is sent: well-formed, escaped, and the same day written out beside it."""

import re
from xml.etree import ElementTree

from django.template.loader import render_to_string

from plates.capacity import Bench
from plates.schedule.lanes import lay_out
from tests.plates.schedule.test_lanes import DAY, QUARTER, WHOLE, clock, job_at


def page_of(*jobs):
    drawing = lay_out(Bench(), DAY, jobs, now=60, clock=clock)
    return render_to_string("plates/common/_lanes.svg", {"lanes": drawing})


def pictures(page):
    return [ElementTree.fromstring(found) for found in re.findall(r"<svg.*?</svg>", page, re.DOTALL)]


def test_every_picture_is_well_formed():
    assert len(pictures(page_of(job_at(0, QUARTER, WHOLE), job_at(60, QUARTER, firm=False)))) == 9


def test_a_name_cannot_break_out_of_the_picture():
    page = page_of(job_at(0, QUARTER, label="10:00 <script>alert(1)</script> & Söhne"))

    assert "<script" not in page
    assert pictures(page)


def test_each_bar_is_drawn_with_its_place_and_its_words():
    day = pictures(page_of(job_at(0, QUARTER)))[1]

    wash = next(group for group in day.iter("g") if group.get("class") == "bar bar-wash")
    assert wash.find("rect").attrib == {
        "x": "32",
        "y": wash.find("rect").get("y"),
        "width": "120",
        "height": "16",
    }
    assert wash.find("title").text == "10:00 Ines Madrugada, plate 1: in the wash 10:16 to 11:16"


def test_a_held_sitting_carries_its_own_mark():
    day = pictures(page_of(job_at(0, QUARTER, firm=False)))[1]

    bars = [group.get("class") for group in day.iter("g")]
    assert bars
    assert all(name.endswith("bar-held") for name in bars)


def test_the_table_beside_the_picture_has_a_row_for_each_plate():
    page = page_of(job_at(0, QUARTER, WHOLE), job_at(60, QUARTER, firm=False))

    assert page.count('<th scope="row">') == 3
    assert "(held)" in page


def test_an_empty_day_says_so_in_words():
    assert "No sitting is promised on this day yet." in page_of()
