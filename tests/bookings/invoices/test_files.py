"""Many papers in one file, read back by Python's own reader, which checks the sum of each entry (CRC-32)."""

import io
from zipfile import ZipFile

import pytest

from bookings.invoices import files as invoice_files
from bookings.invoices.models import Invoice
from bookings.invoices.paper import invoice_pdf
from tests.builders.invoices import an_invoice, broad_day

pytestmark = pytest.mark.django_db


def test_papers_in_one_file_are_the_papers_by_themselves():
    day = broad_day()
    papers = [an_invoice(day), an_invoice(day, sizes=["half"])]

    pieces = list(invoice_files.zipped(Invoice.objects.order_by("pk")))

    # A piece for each paper, so that a browser sees the file grow, and one for the list of contents.
    assert len(pieces) == 3
    with ZipFile(io.BytesIO(b"".join(pieces))) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == ["INV-2026-0001.pdf", "INV-2026-0002.pdf"]
        assert [archive.read(name) for name in archive.namelist()] == [invoice_pdf(each) for each in papers]
