"""The file for a spreadsheet: RFC 4180 s.2 (comma, CRLF, doubled quotes), and OWASP's CSV injection for formulas."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plates.common import spreadsheet


def written(*rows):
    return b"".join(spreadsheet.lines(rows))


def test_the_examples_of_the_standard_come_out_as_they_are_printed_there():
    # RFC 4180, s.2, rules 5 to 7, where each field is enclosed only if it has to be.
    assert written(("aaa", "b\r\nbb", "ccc")) == b'aaa,"b\r\nbb",ccc\r\n'
    assert written(("aaa", 'b"bb', "ccc")) == b'aaa,"b""bb",ccc\r\n'
    assert written(("a,a", "b"), ("c", "d")) == b'"a,a",b\r\nc,d\r\n'


def test_it_is_written_in_utf_8():
    assert written(("Tomé",)) == b"Tom\xc3\xa9\r\n"


def test_nothing_is_an_empty_cell():
    assert written((None, 7, "")) == b",7,\r\n"


def test_a_number_below_nothing_stays_a_number():
    assert written((Decimal("-12.50"), -7, Decimal(0).scaleb(-2), "-12.50")) == b"-12.50,-7,0.00,'-12.50\r\n"


@pytest.mark.parametrize("begin", ["=", "+", "-", "@", "\t", "\r", "\n", "\uff1d"])
def test_no_cell_is_taken_for_a_formula(begin):
    # OWASP, CSV Injection: these characters at the beginning of a cell; an apostrophe before them.
    assert spreadsheet.plain(f'{begin}HYPERLINK("x")') == f'\'{begin}HYPERLINK("x")'


@pytest.mark.parametrize("cell", ["C-14", "a=b", "", "4.5", "'quoted", "ines@example.org"])
def test_every_other_cell_stays_as_it_is(cell):
    assert spreadsheet.plain(cell) == cell


TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=20)


@given(st.lists(st.lists(TEXT, min_size=2, max_size=4), min_size=1, max_size=4))
def test_what_is_written_is_read_back_by_python(rows):
    read = list(csv.reader(io.StringIO(written(*rows).decode(), newline="")))

    assert read == [[spreadsheet.plain(cell) for cell in row] for row in rows]
