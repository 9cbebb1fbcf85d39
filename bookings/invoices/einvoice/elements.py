"""Elements of the Cross Industry Invoice (UN/CEFACT, D22B), written as nested calls."""

import re

from lxml import etree

NAMES = {
    "rsm": "urn:un:unece:uncefact:data:standard:CrossIndustryInvoice:100",
    "ram": "urn:un:unece:uncefact:data:standard:ReusableAggregateBusinessInformationEntity:100",
    "qdt": "urn:un:unece:uncefact:data:standard:QualifiedDataType:100",
    "udt": "urn:un:unece:uncefact:data:standard:UnqualifiedDataType:100",
}

# Everything that is no Char of XML 1.0 (2.2).
_NO_CHAR = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def element(name: str, *content: etree._Element | str | None, **attributes: str) -> etree._Element:
    """One element, for example `element("ram:ID", "INV-2026-0001")`; what is None is left out."""
    made = etree.Element(_full(name), attributes, nsmap=NAMES)
    for part in content:
        if isinstance(part, str):
            made.text = _fit(part)
        elif part is not None:
            made.append(part)
    return made


def optional(name: str, text: str, **attributes: str) -> etree._Element | None:
    """The element, or None when it would say nothing: EN 16931 allows no empty ones."""
    return element(name, text, **attributes) if _fit(text).strip() else None


def written(root: etree._Element) -> bytes:
    """The whole tree as UTF-8 with its declaration; the same tree gives the same bytes."""
    etree.cleanup_namespaces(root, top_nsmap=NAMES)
    told: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8", pretty_print=True)
    return told


def _full(name: str) -> str:
    prefix, _, local = name.partition(":")
    return f"{{{NAMES[prefix]}}}{local}"


def _fit(text: str) -> str:
    """The text without the characters that XML cannot hold."""
    return _NO_CHAR.sub("", text)
