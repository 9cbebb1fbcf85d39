"""Codes that nobody can guess, and that can be read aloud."""

import secrets

import segno
from django.utils.safestring import SafeString, mark_safe

# Without 0, O, 1, I and L, so that a code can be read aloud and typed back. Eight signs are 39 bits, asked for at a
# desk behind the photographer's sign-in: nobody can try them out.
SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
LONGEST = 64  # more is never looked at


def new_code(length: int = 8) -> str:
    """A code that nobody can guess from another one: 31 signs to the power of its length."""
    return "".join(secrets.choice(SIGNS) for _ in range(length))


def plain_code(typed: str) -> str:
    """A code as it is kept, whatever was typed between its signs: "abcd-efgh" is ABCDEFGH."""
    return "".join(sign for sign in typed[:LONGEST] if sign.isalnum()).upper()


# A quarter of the dots may be dirty or torn: the sheet hangs on a stall, out of doors.
ERROR = "q"
QUIET_ZONE = 4  # dots of white all around, as the standard asks


def qr_svg(address: str) -> SafeString:
    """The code of `address` as an SVG element without a size of its own, black on white."""
    code = segno.make_qr(address, error=ERROR, boost_error=False)
    drawn = code.svg_inline(border=QUIET_ZONE, omitsize=True, light="#fff", svgclass=None, lineclass=None)
    return mark_safe(drawn)  # numbers only: the address itself is not in the mark-up
