"""Pictures of plates are taken in by what they hold, made smaller, and keep nothing that a phone wrote into them.

Outside: Exif 2.3 tags 0x0112 (orientation), 0x8825 (GPS) and 0x010F (maker), numbers from memory; the marks of a JPEG
file from ITU-T T.81 (FFD8 begins, FFE1 holds Exif or XMP, FFE2 a profile, FFED Photoshop's notes, FFFE a comment);
PNG's header fields from ISO/IEC 15948, s.11.2.2.
"""

import struct
import zlib
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageFile

from plates.errors import PictureRefused
from plates.ledger import pictures

ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825


def a_picture(*, kind="JPEG", size=(60, 40), mode="RGB", **kept):
    """A picture whose left half is white, written by Pillow with whatever else is to be kept in it."""
    drawn = Image.new("RGB", size, "black")
    drawn.paste("white", (0, 0, size[0] // 2, size[1]))
    written = BytesIO()
    drawn.convert(mode).save(written, kind, **kept)
    return written.getvalue()


def phone_notes(*, orientation=1):
    notes = Image.Exif()
    notes[ORIENTATION] = orientation
    notes[MAKER] = "Invented Telephones"
    notes.get_ifd(GPS)[1] = "N"
    return notes


def marks(jpeg):
    """The marks of the segments before the picture itself."""
    found, at = [], 2
    while jpeg[at : at + 2] != b"\xff\xda":
        found.append(jpeg[at + 1])
        at += 2 + struct.unpack(">H", jpeg[at + 2 : at + 4])[0]
    return found


def a_png(width, height):
    """A PNG that says how large it is and holds next to nothing: what a decompression bomb begins with."""

    def chunk(kind, content):
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        )

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(b"\0"))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_the_three_kinds_are_written_anew_as_a_jpeg(kind, mode):
    kept = Image.open(BytesIO(pictures.clean(a_picture(kind=kind, mode=mode))))

    assert (kept.format, kept.mode, kept.size) == ("JPEG", "RGB", (60, 40))
    assert min(kept.getpixel((5, 20))) > 240
    assert max(kept.getpixel((55, 20))) < 15


def test_nothing_is_left_of_what_the_phone_wrote():
    sent = a_picture(exif=phone_notes(), comment=b"by Ines", xmp=b"<x:xmpmeta/>", icc_profile=b"a profile")

    kept = pictures.clean(sent)

    assert {0xE1, 0xE2, 0xFE} <= set(marks(sent))
    assert [mark for mark in marks(kept) if 0xE1 <= mark <= 0xEF or mark == 0xFE] == []
    assert b"Invented Telephones" not in kept


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_nothing_is_left_of_what_another_kind_held_either(kind):
    kept = pictures.clean(a_picture(kind=kind, exif=phone_notes(), icc_profile=b"a profile"))

    assert [mark for mark in marks(kept) if 0xE1 <= mark <= 0xEF or mark == 0xFE] == []


def test_a_picture_taken_with_the_phone_on_its_side_is_set_upright():
    # Orientation 6: the first column of what is stored is the top of what is seen (Exif, 0x0112).
    kept = Image.open(BytesIO(pictures.clean(a_picture(exif=phone_notes(orientation=6)))))

    assert kept.size == (40, 60)
    assert min(kept.getpixel((20, 5))) > 240
    assert max(kept.getpixel((20, 55))) < 15


def test_a_grey_scan_of_sixteen_bits_keeps_its_middle_grey():
    written = BytesIO()
    Image.new("I;16", (10, 10), 0x8000).save(written, "PNG")

    kept = Image.open(BytesIO(pictures.clean(written.getvalue())))

    assert kept.getpixel((5, 5))[0] in range(126, 131)


def test_a_large_picture_is_made_smaller_in_proportion():
    kept = Image.open(BytesIO(pictures.clean(a_picture(size=(5000, 2500)))))

    assert kept.size == (2400, 1200)


@pytest.mark.parametrize("side", [5000, 8000, 20_000, 2**31 - 1])
def test_a_picture_that_says_it_is_huge_is_not_decoded(side):
    with pytest.raises(PictureRefused, match="more than 24 million pixels"):
        pictures.clean(a_png(side, side))


def test_a_large_photo_of_a_telephone_is_taken_in_as_it_is_made_smaller_on_the_way():
    # 50 million pixels, as the larger sensors of telephones have (common practice, no source).
    drawn = BytesIO()
    Image.new("L", (8192, 6144)).save(drawn, "JPEG")

    assert Image.open(BytesIO(pictures.clean(drawn.getvalue()))).size == (2400, 1800)


def test_a_file_that_is_too_heavy_is_not_looked_at():
    with pytest.raises(PictureRefused, match="larger than 25 MB"):
        pictures.clean(bytes(25_000_001))


@pytest.mark.parametrize(
    "content",
    [
        b"", b"<svg xmlns='x'><script/></svg>", b"<html>", b"%PDF-1.7", b"\xff\xd8\xff", a_png(10, 10),
        a_picture(kind="GIF"), a_picture(kind="TIFF"), a_picture(kind="BMP"), a_picture(size=(400, 400))[:900],
    ],
    ids=["nothing", "svg", "html", "pdf", "stub", "torn png", "gif", "tiff", "bmp", "torn jpeg"],
)  # fmt: skip
def test_what_is_no_picture_of_the_three_kinds_is_refused_in_words(content):
    with pytest.raises(PictureRefused, match="no JPEG, PNG or WebP picture, or it is damaged"):
        pictures.clean(content)


def test_a_torn_file_is_refused_also_once_papers_have_been_printed(monkeypatch):
    # WeasyPrint's images.py sets this when it is imported (read in version 70).
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)

    with pytest.raises(PictureRefused, match="damaged"):
        pictures.clean(a_picture(size=(400, 400))[:900])


@pytest.mark.filterwarnings(
    "ignore::UserWarning:PIL"
)  # what Pillow says of damaged notes, which are dropped anyway
@given(
    kind=st.sampled_from(["JPEG", "PNG", "WEBP"]),
    hits=st.lists(st.tuples(st.integers(0, 10_000), st.integers(0, 255)), max_size=8),
    cut=st.integers(0, 200),
)
def test_a_damaged_file_is_a_picture_or_is_refused_and_nothing_else(kind, hits, cut):
    damaged = bytearray(a_picture(kind=kind, **({"exif": phone_notes()} if kind != "WEBP" else {})))
    for at, value in hits:
        damaged[at % len(damaged)] = value
    damaged = damaged[: len(damaged) - cut]
    try:
        kept = pictures.clean(bytes(damaged))
    except PictureRefused:
        return
    assert kept.startswith(b"\xff\xd8")
