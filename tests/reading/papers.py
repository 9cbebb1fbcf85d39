"""Papers, read back with poppler's pdftotext and with pikepdf, which share no code with what printed them."""

import io
import re
import subprocess

import pikepdf


def text_of(paper, *options):
    told = subprocess.run(
        ["pdftotext", "-layout", *options, "-", "-"], input=paper, capture_output=True, check=True
    )
    return told.stdout.decode()


def flowing(paper, *options):
    return " ".join(text_of(paper, *options).split())


def pages(paper):
    with pikepdf.open(io.BytesIO(paper)) as opened:
        return len(opened.pages)


def of_kind(opened, kind):
    """Every structure element of one kind, anywhere in the tree of tags."""
    return [
        each for each in opened.objects if isinstance(each, pikepdf.Dictionary) and each.get("/S") == kind
    ]


def assert_cells_name_their_headers(opened):
    """WeasyPrint ties each data cell to its headers by name, which serves a reader as well as a scope does."""
    known = {bytes(header.ID) for header in of_kind(opened, "/TH")}
    named = [{bytes(header) for header in cell.A.get("/Headers", [])} for cell in of_kind(opened, "/TD")]
    assert named
    assert all(headers and headers <= known for headers in named)


def off_the_page(paper):
    """The words that do not lie wholly between the side edges of their page."""
    told = subprocess.run(
        ["pdftotext", "-bbox", "-", "-"], input=paper, capture_output=True, check=True
    ).stdout.decode()
    width = float(re.search(r'<page width="([\d.]+)"', told)[1])
    words = re.findall(r'<word xMin="([-\d.]+)" .*?xMax="([-\d.]+)".*?>(.*?)</word>', told)
    assert words
    return [word for left, right, word in words if float(left) < 0 or float(right) > width]
