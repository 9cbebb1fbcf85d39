"""Why a document cannot be written as an electronic invoice, as sentences a person can act on."""

from collections.abc import Iterator

from bookings.common.countries import COUNTRIES
from bookings.invoices.einvoice.values import Document

MOST_PLACES = 2  # BR-DEC-09 to -18: no amount has more decimals


def why_not(document: Document) -> tuple[str, ...]:
    """What stands in the way; empty when it can be written. The printed invoice holds all the same."""
    return tuple(_problems(document))


def _problems(document: Document) -> Iterator[str]:
    if document.places > MOST_PLACES:
        yield (
            f"{document.currency} has {document.places} decimal places, and an electronic invoice has room for"
            f" {MOST_PLACES} at most (EN 16931, BR-DEC)."
        )
    if not document.seller.tax_number.strip():
        yield (
            "It was issued without a tax number of the studio, which an electronic invoice has to give"
            " (EN 16931, BR-S-02, BR-Z-02, BR-E-02)."
        )
    if document.seller.country not in COUNTRIES:
        yield (
            f"{document.seller.country!r}, the country it was issued from, is no two-letter code of ISO 3166-1"
            " (EN 16931, BR-CL-14)."
        )
