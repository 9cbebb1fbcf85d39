"""Credit notes in parts: whatever is taken back in whatever order, the parts add up to the invoice.

Outside: EN 16931 lets the tax of a group lie less than one unit of the currency off (BR-CO-17, wording read in public
copies of its validation rules); the example is worked out by hand.
"""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from bookings.money import PricedLine, broken_rules, credit_totals, invoice_totals
from tests.bookings.money.invoice_strategies import mixed_lines

SUMS = ("charged", "line_net_sum", "total_without_tax", "total_tax", "total_with_tax", "rounding")


def in_parts(lines, parts):
    """The totals of the credit notes for `lines`, the n-th of which goes into the part that `parts` says."""
    notes, before = [], []
    for part in sorted(set(parts)):
        taken = [line for line, at in zip(lines, parts, strict=True) if at == part]
        notes.append(credit_totals(taken, before, "EUR"))
        before += taken
    return notes


def taxes(totals):
    found = {}
    for each in totals:
        for group in each.tax_groups:
            kind = (group.tax_category, group.rate_bp)
            taxable, tax = found.get(kind, (0, 0))
            found[kind] = (taxable + group.taxable, tax + group.tax)
    return found


@settings(max_examples=300)
@given(lines=mixed_lines, chance=st.data())
def test_an_invoice_less_all_its_credit_notes_is_nothing(lines, chance):
    parts = chance.draw(st.lists(st.integers(0, 4), min_size=len(lines), max_size=len(lines)))
    invoice = invoice_totals(lines, "EUR", 500)

    notes = in_parts(lines, parts)

    for name in SUMS:
        assert sum(getattr(note, name) for note in notes) == getattr(invoice, name)
    assert taxes(notes) == taxes([invoice])
    assert [broken_rules(note, tax_within=1) for note in notes] == [()] * len(notes)


def test_the_tax_of_the_parts_is_the_tax_of_the_whole():
    # Each line is 0.50 and 0.115 of tax: alone 0.12, together 1.00 and 0.23.
    lines = [PricedLine("Half plate", 1, 62, "S", 2300), PricedLine("Half plate", 1, 62, "S", 2300)]

    first, second = in_parts(lines, [0, 1])

    assert [(note.total_without_tax, note.total_tax, note.rounding) for note in (first, second)] == [
        (50, 12, 0),
        (50, 11, 1),
    ]
    assert (first.due, second.due, second.prepaid) == (62, 62, 0)


def test_a_whole_credit_note_has_the_sums_of_its_invoice():
    lines = [PricedLine("Half plate", 2, 12_500, "S", 2300), PricedLine("Discount", -1, 1_999, "S", 2300)]
    invoice, [note] = invoice_totals(lines, "EUR", 0), in_parts(lines, [0, 0])

    assert note == invoice


def test_a_tax_two_units_off_is_not_sound_even_in_a_credit_note():
    [note] = in_parts([PricedLine("Half plate", 1, 12_300, "S", 2300)], [0])
    [group] = note.tax_groups

    wrong = replace(note, tax_groups=(replace(group, tax=group.tax + 2),))

    assert any(rule.startswith("BR-CO-17") for rule in broken_rules(wrong, tax_within=1))
