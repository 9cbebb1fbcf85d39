"""What an electronic invoice is written from. Amounts are whole minor units of its currency."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from bookings.common.country_codes import COUNTRIES
from bookings.money import Money

INVOICE, CREDIT_NOTE = "380", "381"  # UNTDID 1001


@dataclass(frozen=True, slots=True)
class Party:
    """The seller (BG-4) or the buyer (BG-7)."""

    name: str  # BT-27, BT-44
    address: tuple[str, ...]  # BT-35, 36, 162; BT-50, 51, 163
    country: str  # BT-40, BT-55: ISO 3166-1 alpha-2
    tax_number: str  # BT-31 or BT-32; BT-48 or BT-46
    email: str  # BT-34, BT-49
    person: str = ""  # BT-56, where the name is that of a company


@dataclass(frozen=True, slots=True)
class Line:
    """One line (BG-25)."""

    position: int  # BT-126
    text: str  # BT-153
    quantity: int  # BT-129
    net: Money  # BT-131
    tax_category: str  # BT-151
    rate_bp: int  # BT-152


@dataclass(frozen=True, slots=True)
class TaxShare:
    """The tax on the lines of one category and rate (BG-23)."""

    tax_category: str  # BT-118
    rate_bp: int  # BT-119
    taxable: Money  # BT-116
    tax: Money  # BT-117
    reason: str = ""  # BT-120


@dataclass(frozen=True, slots=True)
class Document:
    """One invoice or credit note."""

    kind: str  # BT-3
    number: str  # BT-1
    issued_on: date  # BT-2
    supplied_on: date  # BT-72
    due_on: date | None  # BT-9
    currency: str  # BT-5
    places: int  # how many decimals the currency has (ISO 4217)
    order: str  # BT-14
    seller: Party
    buyer: Party
    account: str  # BT-84
    lines: tuple[Line, ...]
    taxes: tuple[TaxShare, ...]
    net: Money  # BT-106, BT-109
    tax: Money  # BT-110
    total: Money  # BT-112
    prepaid: Money  # BT-113
    rounding: Money  # BT-114
    due: Money  # BT-115
    corrects: tuple[str, date] | None = None  # BT-25, BT-26
    reason: str = ""  # BT-22


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
