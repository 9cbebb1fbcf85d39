"""PURE: letters in the studio's own words. A placeholder is replaced once, by a text, and nothing is looked into."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

PLACEHOLDER = re.compile(r"\{([^{}\n]*)\}")
ITEM = "- "

Pieces = tuple[tuple[str, bool], ...]


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, or a list; each line in pieces of (text, whether it is the letter's link)."""

    lines: tuple[Pieces, ...]
    is_list: bool


def unknown(text: str, known: Collection[str]) -> list[str]:
    """The names between braces that are not known, in order, each once."""
    return list(dict.fromkeys(name for name in PLACEHOLDER.findall(text) if name not in known))


def missing(text: str, needed: Collection[str]) -> list[str]:
    """The names that a text has to hold and does not."""
    held = set(PLACEHOLDER.findall(text))
    return [name for name in needed if name not in held]


def fill(text: str, values: Mapping[str, str]) -> str:
    """Put the values in. A line whose placeholders all stand for nothing is left out; unknown ones stay as written."""
    lines = [line for line in text.splitlines() if not _says_nothing(line, values)]
    # One pass: what a value holds, a client's name with braces for one, is never read as a placeholder.
    return "\n".join(PLACEHOLDER.sub(lambda found: values.get(found[1], found[0]), line) for line in lines)


def blocks(text: str, link: str) -> list[Block]:
    """A filled text as paragraphs and lists: an empty line ends one, and lines that begin with "- " are a list."""
    found: list[Block] = []
    for kind, lines in groupby(text.splitlines(), key=_kind):
        if kind != "":
            pieces = tuple(_pieces(line.removeprefix(ITEM).strip(), link) for line in lines)
            found.append(Block(lines=pieces, is_list=kind == ITEM))
    return found


def _kind(line: str) -> str:
    if not line.strip():
        return ""
    return ITEM if line.startswith(ITEM) else "paragraph"


def _pieces(line: str, link: str) -> Pieces:
    parts: Sequence[str] = re.split(f"({re.escape(link)})", line) if link else [line]
    return tuple((part, part == link) for part in parts if part)


def _says_nothing(line: str, values: Mapping[str, str]) -> bool:
    names = PLACEHOLDER.findall(line)
    return bool(names) and all(values.get(name) == "" for name in names)
