"""Pictures of plates, made safe to keep: decoded, turned upright, made smaller, written anew without any note in them.

A phone writes place, time and its own name into a photo (EXIF, XMP, comments). Only the picture itself is kept. A
colour profile goes too: a tintype has next to no colour to lose.
"""

import struct
from io import BytesIO
from threading import Lock

from django.utils.translation import gettext as _
from PIL import Image, ImageFile, ImageOps

from plates.errors import PictureRefused

STORE = "pictures"  # of the settings' STORAGES
FORMATS = ("JPEG", "PNG", "WEBP")
MOST_BYTES = 25_000_000
# A JPEG is made smaller while it is decoded, the others are decoded whole: measured at these sizes, either takes about
# 400 MB for a moment at most. The first is a telephone's best, the second a whole plate scanned at 600 to the inch.
MOST_PIXELS = {"JPEG": 60_000_000, "MPO": 60_000_000}
MOST_PIXELS_WHOLE = 24_000_000
LONGEST_SIDE = 2400  # pixels of what is kept
QUALITY = 88

# Several at once would take the memory of several.
_one_at_a_time = Lock()

# What Pillow's decoders are known to raise for a file that is broken or not what it says.
BROKEN = (OSError, SyntaxError, ValueError, EOFError, LookupError, TypeError, struct.error)
TOO_LARGE = (Image.DecompressionBombError, Image.DecompressionBombWarning)


def clean(content: bytes) -> bytes:
    """A JPEG of the picture in `content`, LONGEST_SIDE at most and without metadata; PictureRefused when there is none.

    What the content is, it has to show itself: no file name and no header of the sender is believed.
    """
    if len(content) > MOST_BYTES:
        raise PictureRefused(too_heavy())
    # WeasyPrint switches this on for the whole process when it is loaded: a torn file would pass, half of it grey. The
    # papers hold no photographs, so it can stay off.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with _one_at_a_time, Image.open(BytesIO(content), formats=FORMATS) as opened:
            _refuse_large(opened)
            opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            return _written(_plain(opened))
    except TOO_LARGE as bomb:
        raise PictureRefused(_too_large(MOST_PIXELS_WHOLE)) from bomb
    except BROKEN as broken:
        raise PictureRefused(_("That is no JPEG, PNG or WebP picture, or it is damaged.")) from broken


def too_heavy() -> str:
    return _("That file is larger than {most_bytes} MB. Send a smaller picture.").format(
        most_bytes=MOST_BYTES // 1000000
    )


def _refuse_large(opened: Image.Image) -> None:
    most = MOST_PIXELS.get(opened.format or "", MOST_PIXELS_WHOLE)
    if opened.width * opened.height > most:
        raise PictureRefused(_too_large(most))


def _too_large(most: int) -> str:
    return _("That picture has more than {most} million pixels. Send it smaller, or as a JPEG.").format(
        most=most // 1000000
    )


def _plain(opened: Image.Image) -> Image.Image:
    """Upright, in plain colours, no larger than is kept."""
    # Scanners write grey in sixteen bits, which Pillow would cut off instead of scaling.
    grey = opened.convert("I").point(lambda value: value / 256) if opened.mode.startswith("I") else opened
    small = grey if grey.mode == "RGB" else grey.convert("RGB")
    small.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    ImageOps.exif_transpose(small, in_place=True)
    return small


def _written(picture: Image.Image) -> bytes:
    picture.info = {}  # Pillow writes a comment found here into the new file
    kept = BytesIO()
    picture.save(kept, "JPEG", quality=QUALITY, optimize=True)
    return kept.getvalue()
