"""What it means that a letter was not taken: later, never, or no server at all.

Outside: RFC 5321 (replies) and RFC 3463 (their details), from memory; the errors are those of Python's own smtplib.
"""

import smtplib

import pytest

from bookings.letters.failures import Fate, fate_of, reply_text


@pytest.mark.parametrize(
    ("error", "fate"),
    [
        (smtplib.SMTPRecipientsRefused({"a": (550, b"no such user")}), Fate.DEAD),
        (smtplib.SMTPRecipientsRefused({"a": (553, b"5.1.3 bad syntax")}), Fate.DEAD),
        (smtplib.SMTPRecipientsRefused({"a": (554, b"5.7.1 blocked")}), Fate.LATER),
        (smtplib.SMTPRecipientsRefused({"a": (452, b"4.2.2 mailbox full")}), Fate.LATER),
        (smtplib.SMTPRecipientsRefused({"a": (421, b"closing")}), Fate.AWAY),
        (smtplib.SMTPRecipientsRefused({}), Fate.LATER),
        (smtplib.SMTPSenderRefused(552, b"too large", "a"), Fate.REFUSED),
        (smtplib.SMTPSenderRefused(530, b"sign in first", "a"), Fate.AWAY),
        (smtplib.SMTPAuthenticationError(535, b"wrong password"), Fate.AWAY),
        (smtplib.SMTPDataError(554, b"content refused"), Fate.REFUSED),
        (smtplib.SMTPDataError(451, b"not now"), Fate.LATER),
        (smtplib.SMTPDataError(421, b"closing"), Fate.AWAY),
        (smtplib.SMTPServerDisconnected("gone"), Fate.AWAY),
        (TimeoutError("timed out"), Fate.AWAY),
        (ValueError("header with a line end"), Fate.REFUSED),
    ],
    ids=lambda value: str(value).replace(" ", "-")[:40],
)
def test_what_a_failure_means(error, fate):
    assert fate_of(error) == fate


def test_what_the_server_said_is_one_line():
    error = smtplib.SMTPRecipientsRefused({"a": (550, b"5.1.1 no\r\n such user")})

    assert reply_text(error) == "SMTPRecipientsRefused: 550 5.1.1 no such user"
    assert len(reply_text(OSError("x" * 400))) == 300
