"""What makes a printed paper one to be kept: a PDF/A-3 that says what it is and carries the same facts for machines.

Made as PDF/A-3a (ISO 19005-3), PDF/UA-1 (ISO 14289-1) and Factur-X 1.0, from memory and from what other makers write.
No validator of PDF/A is at hand, so nobody may be told that a paper is certified.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from io import BytesIO
from typing import TYPE_CHECKING, Any

from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from lxml import etree

if TYPE_CHECKING:
    from weasyprint import Attachment

VARIANT = "pdf/a-3a"
_RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"


@dataclass(frozen=True, slots=True)
class Enclosed:
    """The electronic form of an invoice, which is put inside its paper. `on` is the day that it is dated."""

    content: bytes
    on: date
    name: str = "factur-x.xml"

    def attachment(self) -> Attachment:
        """The file as another form of the same paper; dated, so that the same paper has the same bytes."""
        from weasyprint import Attachment  # see `plates.common.printing`

        moment = datetime.combine(self.on, time())
        return Attachment(
            file_obj=BytesIO(self.content),
            name=self.name,
            description=_("The invoice in electronic form (EN 16931)"),
            created=moment,
            modified=moment,
            relationship="Alternative",
        )


def finish(enclosed: Enclosed | None, pdf: Any) -> None:
    """Amend what WeasyPrint is about to write: metadata in one piece, the enclosed file listed once and as XML."""
    metadata = _object(pdf, pdf.catalog["Metadata"])
    metadata.stream, metadata.compress = [_amended(b"".join(metadata.stream), enclosed)], False
    if enclosed is None:
        return
    pdf.catalog["AF"][:] = dict.fromkeys(pdf.catalog["AF"])
    for reference in pdf.catalog["AF"]:
        # Else the kind is what the tables of this machine make of the name.
        _object(pdf, _object(pdf, reference)["EF"]["F"]).extra["Subtype"] = "/text#2fxml"


def _object(pdf: Any, reference: bytes) -> Any:
    return pdf.objects[int(reference.split()[0])]


def _amended(packet: bytes, enclosed: Enclosed | None) -> bytes:
    """The packet of metadata with more descriptions inside its one rdf:RDF (ISO 16684-1, from memory).

    Among them what is not of PDF/A's own schemas, and has to be explained where it is used (ISO 19005-3, 6.6.2.3).
    """
    begin, end = packet.index(b"<x:xmpmeta"), packet.index(b"<?xpacket end")
    told = etree.fromstring(packet[begin:end])
    more = etree.fromstring(render_to_string("bookings/common/papers/_archive.xml", {"enclosed": enclosed}))
    told.find(f"{_RDF}RDF").extend(more)
    etree.indent(told)
    inside: bytes = etree.tostring(told, encoding="UTF-8")
    return packet[:begin] + inside + b"\n" + packet[end:]
