"""Seller and buyer as a Cross Industry Invoice writes them."""

from lxml.etree import _Element

from bookings.invoices.einvoice.elements import element, optional
from bookings.invoices.einvoice.values import Party

# What a VAT identifier begins with where that is not the code of the country (BR-CO-09; Northern Ireland from memory).
OTHER_PREFIX = {"GR": "EL", "GB": "XI"}
OTHER_CODE = {"XK": "1A"}  # as the standard's code list names Kosovo
LINES = ("ram:LineOne", "ram:LineTwo", "ram:LineThree")


def seller(party: Party) -> _Element:
    """BG-4: the tax number as VAT identifier (BT-31) where it has the form of one.

    Else as a tax number (BT-32), and as an identifier besides (BT-29), because one has to be there (BR-CO-26).
    """
    if is_vat_identifier(party):
        return element("ram:SellerTradeParty", *_common(party), _registration(party, "VA"))
    own = optional("ram:ID", party.tax_number.strip())
    return element("ram:SellerTradeParty", own, *_common(party), _registration(party, "FC"))


def buyer(party: Party) -> _Element:
    """BG-7: the tax number as VAT identifier (BT-48) where it has the form of one, else as an identifier (BT-46)."""
    if is_vat_identifier(party):
        return element("ram:BuyerTradeParty", *_common(party), _registration(party, "VA"))
    return element("ram:BuyerTradeParty", optional("ram:ID", party.tax_number.strip()), *_common(party))


def is_vat_identifier(party: Party) -> bool:
    """Whether the tax number begins with the letters of its country, as a VAT identifier does (BR-CO-09)."""
    return _joined(party.tax_number)[:2] in {party.country, OTHER_PREFIX.get(party.country, party.country)}


def _common(party: Party) -> list[_Element | None]:
    country = OTHER_CODE.get(party.country, party.country)
    contact = element("ram:DefinedTradeContact", element("ram:PersonName", party.person))
    return [
        element("ram:Name", party.name),
        contact if party.person else None,
        element("ram:PostalTradeAddress", *_lines(party.address), element("ram:CountryID", country)),
        _mail(party.email),
    ]


def _lines(address: tuple[str, ...]) -> list[_Element | None]:
    """The address as it stands on the paper, in three lines at most: there is no place for more."""
    first, second, rest = address[:1], address[1:2], address[2:]
    return [optional(name, ", ".join(part)) for name, part in zip(LINES, (first, second, rest), strict=True)]


def _mail(email: str) -> _Element | None:
    """BT-34, BT-49: an address for electronic mail is of the scheme EM (the code list of the standard)."""
    if not email:
        return None
    return element("ram:URIUniversalCommunication", element("ram:URIID", email, schemeID="EM"))


def _registration(party: Party, scheme: str) -> _Element | None:
    number = _joined(party.tax_number) if scheme == "VA" else party.tax_number.strip()
    if not number:
        return None
    return element("ram:SpecifiedTaxRegistration", element("ram:ID", number, schemeID=scheme))


def _joined(number: str) -> str:
    return "".join(number.split()).upper()
