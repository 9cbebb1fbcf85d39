"""Every pictogram of the tables has a symbol, drawn inside its frame.

GHS, annex 1 (United Nations): a symbol in black on white within a red frame that stands on its point; the codes GHS01
to GHS09 without GHS04, which no substance here carries, are those of `hazard_statements.PICTOGRAMS`.
"""

import re
from xml.etree import ElementTree

import pytest
from django.template.loader import render_to_string

from plates.chemistry.hazards.statements import PICTOGRAMS
from plates.store.pictograms import SYMBOLS, symbol
from plates.templatetags.store_words import pictogram


def drawn(code):
    return ElementTree.fromstring(render_to_string("plates/common/_pictogram.svg", pictogram(code)))


def test_every_pictogram_of_the_table_is_drawn():
    assert set(SYMBOLS) == set(PICTOGRAMS)


@pytest.mark.parametrize("code", sorted(PICTOGRAMS))
def test_a_pictogram_is_named_and_framed_in_red_on_its_point(code):
    picture = drawn(code)

    frame = picture.find("path")
    assert picture.get("aria-label") == f"{code}: {PICTOGRAMS[code]}"
    assert frame.get("d") == "M50 3L97 50L50 97L3 50z"
    red, green, blue = (int(frame.get("stroke")[at : at + 2], 16) for at in (1, 3, 5))
    assert frame.get("fill") == "#fff"
    assert red > 180
    assert max(green, blue) < 60


@pytest.mark.parametrize("code", sorted(PICTOGRAMS))
def test_a_symbol_is_black_and_white_only(code):
    strokes = drawn(code).findall("g/path")

    assert {colour for each in strokes for colour in (each.get("fill"), each.get("stroke"))} <= {
        "#000", "#fff", "none", None,
    }  # fmt: skip
    assert any(not each.white for each in symbol(code))


@pytest.mark.parametrize("code", sorted(PICTOGRAMS))
def test_a_symbol_begins_every_stroke_inside_its_frame(code):
    starts = [
        (float(x), float(y)) for each in symbol(code) for x, y in re.findall(r"M([\d.]+) ([\d.]+)", each.path)
    ]

    # The square on its point: |x - 50| + |y - 50| is at most 47, and the symbol is drawn at 0.88 of its size.
    assert starts
    assert all(0.88 * (abs(x - 50) + abs(y - 50)) < 47 for x, y in starts)
