"""PURE: what it means that a letter was not taken (RFC 5321 s.4.2 for the replies, RFC 3463 for their details)."""

import smtplib
from enum import StrEnum

CLOSING = 421  # "service not available, closing transmission channel", in answer to anything
TOO_LARGE = 552
PERMANENT = 500


class Fate(StrEnum):
    """What becomes of a letter that was not taken."""

    AWAY = "away"  # the server takes nothing from anybody just now
    LATER = "later"  # this letter is not taken for the moment
    REFUSED = "refused"  # this letter will never be taken as it is
    DEAD = "dead"  # nobody reads letters at this address


def fate_of(error: Exception) -> Fate:
    """What a failure to send means for its letter; the server's own troubles are not the letter's."""
    match error:
        case smtplib.SMTPRecipientsRefused():
            return _of_recipient(list(error.recipients.values()))
        case smtplib.SMTPSenderRefused(smtp_code=code) if code == TOO_LARGE:
            return Fate.REFUSED
        case smtplib.SMTPDataError(smtp_code=code) if code != CLOSING:
            return Fate.REFUSED if code >= PERMANENT else Fate.LATER
        case smtplib.SMTPException() | OSError():
            return Fate.AWAY
        case _:
            return Fate.REFUSED


def reply_text(error: Exception) -> str:
    """What the server said, or what went wrong, on one line."""
    replies = error.recipients.values() if isinstance(error, smtplib.SMTPRecipientsRefused) else []
    said = "; ".join(f"{code} {_text(text)}" for code, text in replies)
    return " ".join(f"{type(error).__name__}: {said or error}".split())[:300]


def _of_recipient(replies: list[tuple[int, bytes]]) -> Fate:
    """By the one answer that a letter to one recipient gets."""
    code, text = replies[0] if replies else (PERMANENT - 1, b"")
    if code == CLOSING:
        return Fate.AWAY
    # x.7.x is about policy: such a server refuses us, whoever the letter is for.
    if code < PERMANENT or _text(text).startswith("5.7."):
        return Fate.LATER
    return Fate.DEAD


def _text(text: bytes | str) -> str:
    return text.decode(errors="replace") if isinstance(text, bytes) else text
