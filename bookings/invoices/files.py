"""Papers in one file, each as the PDF it is by itself: joined into one they would lose the e-invoice inside."""

from collections.abc import Iterable, Iterator
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from bookings.invoices.letter import file_name
from bookings.invoices.models import Invoice
from bookings.invoices.paper import invoice_pdf

EARLIEST = 1980  # the first year that a ZIP file can write


class _Sent:
    """A file that is only written to, and hands over what was written since it was last asked."""

    def __init__(self) -> None:
        self.parts: list[bytes] = []

    def write(self, part: bytes) -> int:
        self.parts.append(bytes(part))
        return len(part)

    def flush(self) -> None:
        """Nothing is held back."""

    def taken(self) -> bytes:
        parts, self.parts = self.parts, []
        return b"".join(parts)


def zipped(invoices: Iterable[Invoice]) -> Iterator[bytes]:
    """A ZIP file of the papers in pieces, each printed when its turn comes. Equal rows give equal bytes."""
    sent = _Sent()
    with ZipFile(sent, "w", ZIP_DEFLATED) as archive:  # type: ignore[call-overload]
        for invoice in invoices:
            on = invoice.issued_on
            entry = ZipInfo(file_name(invoice), (max(EARLIEST, on.year), on.month, on.day, 12, 0, 0))
            archive.writestr(entry, invoice_pdf(invoice), ZIP_DEFLATED)
            yield sent.taken()
    yield sent.taken()
