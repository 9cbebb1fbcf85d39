"""An invoice as a PDF to be kept: what it says it is, what it carries, and that its bytes never change.

Outside: the marks of PDF/A-3 and PDF/UA-1 (ISO 19005-3, ISO 14289-1) and of Factur-X 1.0, from memory: no validator of
PDF/A is at hand, so structure is looked at with pikepdf; factur-x takes the XML out, pdfua checks 16 of the 106
conditions of the Matterhorn protocol.
"""

import io
import time

import facturx
import pikepdf
import pytest
from pdfua.model import Severity
from pdfua.validator import Validator
from weasyprint import HTML

from bookings.invoices.models import Invoice
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.selectors.einvoices import einvoice
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from tests import builders
from tests.builders import NOW
from tests.reading.papers import of_kind

pytestmark = pytest.mark.django_db
FX = "{urn:factur-x:pdfa:CrossIndustryDocument:invoice:1p0#}"
A = "{http://www.aiim.org/pdfa/ns/id/}"
UA = "{http://www.aiim.org/pdfua/ns/id/}"


def an_invoice(**studio):
    day = builders.a_day()
    builders.a_studio(**studio)
    order = builders.a_paid_order(day, sizes=["quarter", "half"])
    return invoices.issue(order_id=order.pk, now=NOW)


def opened(paper):
    return pikepdf.open(io.BytesIO(paper))


def test_it_says_once_what_it_is_made_as():
    with opened(invoice_pdf(an_invoice())) as pdf, pdf.open_metadata() as about:
        assert (about[f"{A}part"], about[f"{A}conformance"], about[f"{UA}part"]) == ("3", "A", "1")
        assert about[f"{FX}DocumentType"] == "INVOICE"
        assert about[f"{FX}DocumentFileName"] == "factur-x.xml"
        assert (about[f"{FX}Version"], about[f"{FX}ConformanceLevel"]) == ("1.0", "EN 16931")
        packet = bytes(pdf.Root.Metadata.read_raw_bytes())
    assert (packet.count(b"<rdf:RDF"), packet.count(b"pdfaExtension:schemas>")) == (1, 2)
    assert packet.startswith(b"<?xpacket begin=")


def test_its_date_stands_in_both_places_alike():
    with opened(invoice_pdf(an_invoice())) as pdf, pdf.open_metadata() as about:
        assert str(pdf.docinfo["/CreationDate"]) == "D:20261120000000Z"
        assert about["xmp:CreateDate"] == about["xmp:ModifyDate"] == "2026-11-20T00:00:00Z"


def test_the_electronic_form_comes_out_as_it_went_in():
    invoice = an_invoice()

    name, xml = facturx.get_xml_from_pdf(invoice_pdf(invoice), check_xsd=True, check_schematron=False)

    assert (name, xml) == ("factur-x.xml", einvoice(invoice))


def test_the_electronic_form_is_listed_once_as_another_form_of_the_paper():
    with opened(invoice_pdf(an_invoice())) as pdf:
        [listed] = pdf.Root.AF
        assert (listed.Type, listed.AFRelationship, listed.UF) == (
            "/Filespec",
            "/Alternative",
            "factur-x.xml",
        )
        assert listed.EF.F.Subtype == "/text/xml"
        assert listed.EF.F.Params.ModDate == "D:20261120000000Z"
        assert list(pdf.attachments) == ["factur-x.xml"]


def test_colours_and_fonts_are_inside_it():
    with opened(invoice_pdf(an_invoice())) as pdf:
        [intent] = pdf.Root.OutputIntents
        assert intent.S == "/GTS_PDFA1"
        assert len(intent.DestOutputProfile.read_bytes()) > 1000
        fonts = [
            each for each in pdf.objects if isinstance(each, pikepdf.Dictionary) and "/FontDescriptor" in each
        ]
        assert fonts
        assert all({"/FontFile2", "/FontFile3"} & set(each.FontDescriptor.keys()) for each in fonts)
        assert pdf.trailer.ID
        assert pdf.check_pdf_syntax() == []
        assert of_kind(pdf, "/Table")


@pytest.mark.parametrize("kind", ["invoice", "credit note", "without an electronic form"])
def test_a_checker_of_pdf_ua_finds_no_error(kind, tmp_path):
    document = an_invoice(tax_number="" if kind == "without an electronic form" else "PT999999990")
    if kind == "credit note":
        document = credit_notes.issue(invoice_id=document.pk, reason="Wrong name", now=NOW)
    (tmp_path / "paper.pdf").write_bytes(invoice_pdf(document))

    report = Validator().validate(str(tmp_path / "paper.pdf"))

    findings = [finding for outcome in report.outcomes for finding in outcome.findings]
    assert len(report.outcomes) > 10
    assert [finding for finding in findings if finding.severity == Severity.ERROR] == []


def test_a_paper_without_an_electronic_form_encloses_nothing_and_claims_nothing():
    with opened(invoice_pdf(an_invoice(tax_number=""))) as pdf, pdf.open_metadata() as about:
        assert "/AF" not in pdf.Root
        assert f"{FX}DocumentType" not in about
        assert (about[f"{A}part"], about[f"{UA}part"]) == ("3", "1")


def test_the_same_paper_has_the_same_bytes_at_any_second():
    invoice = an_invoice()
    before = invoice_pdf(invoice)
    time.sleep(1.1)  # dates in a PDF are told to the second
    builders.a_studio(locale="de_DE", country="US", payment_days=1)

    assert invoice_pdf(Invoice.objects.get(pk=invoice.pk)) == before


def test_where_letter_lies_in_the_printer_it_is_printed_on_letter():
    with opened(invoice_pdf(an_invoice(country="US", tax_number="12-3456789"))) as pdf:
        # ANSI/ASME Y14.1 A: 8.5 x 11 inches of 72 points.
        assert [float(side) for side in pdf.pages[0].MediaBox] == [0, 0, 612, 792]


def test_the_checker_of_pdf_ua_finds_an_untagged_paper(tmp_path):
    HTML(string="<title>Paper</title><p>No tags").write_pdf(tmp_path / "paper.pdf")

    report = Validator().validate(str(tmp_path / "paper.pdf"))

    assert any(finding.severity == Severity.ERROR for each in report.outcomes for finding in each.findings)
