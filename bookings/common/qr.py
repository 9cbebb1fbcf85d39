"""An address as a square of dots that a phone reads (QR code, ISO/IEC 18004)."""

import segno
from django.utils.safestring import SafeString, mark_safe

# A quarter of the dots may be dirty or torn: the sheet hangs on a stall, out of doors.
ERROR = "q"
QUIET_ZONE = 4  # dots of white all around, as the standard asks


def qr_svg(address: str) -> SafeString:
    """The code of `address` as an SVG element without a size of its own, black on white."""
    code = segno.make_qr(address, error=ERROR, boost_error=False)
    drawn = code.svg_inline(border=QUIET_ZONE, omitsize=True, light="#fff", svgclass=None, lineclass=None)
    return mark_safe(drawn)  # numbers only: the address itself is not in the mark-up
