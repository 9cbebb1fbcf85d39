"""Codes that nobody can guess, and that can be read aloud."""

import secrets

# Without 0, O, 1, I and L, so that a code can be read aloud and typed back. Eight signs are 39 bits, asked for at a
# desk behind the photographer's sign-in: nobody can try them out.
SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"


LENGTH = 8


def new_code() -> str:
    """A code that nobody can guess from another one."""
    return "".join(secrets.choice(SIGNS) for _ in range(LENGTH))
