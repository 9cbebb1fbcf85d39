"""What stands on the label of a bottle. The rows of hazards have their sources checked in chemistry/test_hazards.py."""

import io
from datetime import date

import pikepdf
import pytest

from plates.chemistry.hazards.classification import NO_ROW, SHEET_FIRST
from plates.chemistry.hazards.substances import SUBSTANCES
from plates.store.bottle_label import label_pdf, of_batch, of_substance
from plates.store.models import Batch
from tests.builders import NOW

MIXED = date(2026, 11, 14)


def batch(kind="developer", **changes):
    facts = {
        "label": "D 3",
        "made_ul": 500_000,
        "mixed_at": NOW,
        "mixed_on": MIXED,
        "ripe_from": MIXED,
        "best_before": date(2026, 11, 28),
        "contents": [
            {"name": "iron sulphate", "substance": "iron_sulfate", "amount": "20", "unit": "g"},
            {"name": "acetic acid, glacial", "substance": "acetic_acid", "amount": "20", "unit": "ml"},
            {"name": "oil of cloves", "substance": "", "amount": "1", "unit": "ml"},
            {"name": "water", "substance": "water", "makes_up": True},
        ],
    }
    return Batch(kind=kind, **(facts | changes))


def test_a_batch_says_what_it_is_when_it_was_made_and_of_what():
    label = of_batch(batch())

    assert (label.title, label.mark) == ("Developer", "D 3")
    assert label.lines[:4] == (
        "Made: 2026-11-14, 500 mL", "Ripe from: 2026-11-14", "Past its best from: 2026-11-28", "Opened: …",
    )  # fmt: skip
    assert "iron sulphate: 20 g" in label.lines


def test_the_strongest_signal_and_every_pictogram_of_what_went_in_is_shown():
    # Glacial acetic acid: Danger, flame and corrosion; iron sulphate: Warning, exclamation mark (Annex VI of CLP).
    label = of_batch(batch())

    assert (label.signal, label.pictograms) == ("Danger", ("GHS02", "GHS05", "GHS07"))


def test_where_each_row_is_from_stands_beside_it():
    sources = {each.name: each.source for each in of_batch(batch()).substances}

    assert sources["iron(II) sulfate, 7-hydrate"] == "Annex VI of CLP, the agency's table up to ATP 17 (A)"


def test_what_has_no_row_is_named_and_not_called_harmless():
    label = of_batch(batch())

    assert (label.unlisted, label.no_row) == (("oil of cloves",), NO_ROW)


def test_a_bath_and_a_collodion_are_what_they_are_whatever_was_written_down():
    assert [each.name for each in of_batch(batch("bath", contents=[])).substances] == ["silver nitrate"]
    assert [each.name for each in of_batch(batch("collodion", contents=[])).substances] == ["collodion"]


def test_beside_the_skull_no_exclamation_mark_stands():
    # Methanol and iron sulphate: 02, 06, 08 and 07 (CLP, article 26, 1(b), from memory).
    contents = [{"name": name, "substance": name} for name in ("methanol", "iron_sulfate")]

    assert of_batch(batch(contents=contents)).pictograms == ("GHS02", "GHS06", "GHS08")


def test_beside_h410_no_h400_stands():
    # The practice of EU labels (trade-facts s.6).
    [silver] = of_substance("silver_nitrate").substances

    assert [code for code, _ in silver.statements] == ["H272", "H314", "H410"]


@pytest.mark.parametrize("key", sorted(SUBSTANCES))
def test_every_substance_has_a_label_with_its_source(key):
    label = of_substance(key)

    [found] = label.substances
    assert label.title == SUBSTANCES[key].name
    assert found.source.startswith(SUBSTANCES[key].source.text)


def test_a_key_without_a_row_has_no_label():
    with pytest.raises(KeyError):
        of_substance("moonlight")


def test_the_label_is_one_tagged_page_of_a6_with_its_pictograms_named():
    paper = label_pdf(of_batch(batch()))

    with pikepdf.open(io.BytesIO(paper)) as pdf:
        [page] = pdf.pages
        width, height = (float(side) / 72 * 25.4 for side in page.mediabox[2:])
        assert (round(width), round(height)) == (148, 105)  # ISO 216
        assert pdf.Root.MarkInfo.Marked
        assert pdf.docinfo["/Title"] == "Label: Developer D 3"
    assert label_pdf(of_batch(batch())) == paper


def test_what_overrides_the_label_is_printed_on_it():
    assert of_substance("ether").sheet_first == SHEET_FIRST
