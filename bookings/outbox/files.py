"""Letters that the embedded site has written to files, and those of somebody who is forgotten taken out of them."""

import email
from collections.abc import Sequence
from email import policy
from email.utils import getaddresses
from pathlib import Path

from django.conf import settings

# As Django's file backend puts it between the letters of one file.
BETWEEN = b"-" * 79 + b"\n"
FILES = "django.core.mail.backends.filebased.EmailBackend"


def forget_letters(addresses: Sequence[str]) -> int:
    """Take every letter to one of these addresses out of the folder of letters; return how many. Safe twice.

    Where letters go out by a mail server nothing is kept here, and nothing is done.
    """
    if settings.EMAIL_BACKEND != FILES:
        return 0
    meant = {address.casefold() for address in addresses if address}
    folder = Path(settings.EMAIL_FILE_PATH)
    return sum(_forget_in(file, meant) for file in sorted(folder.glob("*.log")))


def _forget_in(file: Path, meant: set[str]) -> int:
    letters = [letter for letter in file.read_bytes().split(BETWEEN) if letter.strip()]
    kept = [letter for letter in letters if not _goes_to(letter, meant)]
    if len(kept) == len(letters):
        return 0
    if kept:
        file.write_bytes(b"".join(letter + BETWEEN for letter in kept))
    else:
        file.unlink(missing_ok=True)
    return len(letters) - len(kept)


def _goes_to(letter: bytes, meant: set[str]) -> bool:
    parsed = email.message_from_bytes(letter, policy=policy.compat32)
    found = getaddresses([str(line) for line in parsed.get_all("To", [])])
    return any(address.casefold() in meant for _, address in found)
