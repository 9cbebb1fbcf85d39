"""The words of the program and their catalogues: `python -m tests.words`.

Reads every word that is marked for translation in the code and the templates, brings the catalogues of each language
up to date with them (new ones without a translation, those that are gone left out), compiles them and says what is
still to be translated. Babel reads and writes; no gettext tools are needed. `tests/test_words.py` holds the catalogues
to it.
"""

import ast
import io
import os
import re
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from plates.chemistry.hazards import cautions
from plates.chemistry.hazards import classification as hazards
from plates.chemistry.hazards.substances import SUBSTANCES

ROOT = Path(__file__).resolve().parent.parent
LANGUAGES = ("de",)
# Each app has the words of its own code and pages. What both say stands with plates, which bookings stands on.
APPS = ("plates", "bookings")
KEYWORDS = {
    **dict.fromkeys(("_", "gettext", "gettext_lazy", "gettext_noop")),
    **dict.fromkeys(("ngettext", "ngettext_lazy"), (1, 2)),
    **dict.fromkeys(("pgettext", "pgettext_lazy"), ((1, "c"), 2)),
    "npgettext": ((1, "c"), 2, 3),
}
# Pure packages know no Django: whoever shows these tables puts them into the studio's language.
TABLES = {
    "plates/capacity/refusals/explain.py": ("SENTENCES", "FREE"),
    "plates/chemistry/hazards/statements.py": ("STATEMENTS", "PICTOGRAMS"),
    "plates/schedule/lanes.py": ("GROUPS", "STEP_WORDS", "SENTENCES"),
    "plates/ledger/spoilage.py": ("SENTENCES",),
}
# Sentences of pure packages that pages show one by one.
SHOWN = frozenset(
    {
        *(cautions.DEFER, hazards.SHEET_FIRST, hazards.NO_ROW),
        *(each.sentence for each in cautions.CAUTIONS),
        *(word for each in SUBSTANCES.values() for word in (each.name, each.organs, each.note) if word),
    }
)
# A date in the head of a catalogue would be another one each time.
WRITTEN = datetime(2026, 11, 26, tzinfo=UTC)
HEAD = "# The words of Silver Hour in PROJECT. Fill in msgstr, then run `python -m tests.words`."


class Word(NamedTuple):
    """One marked text; `plural` is empty where there is none."""

    context: str | None
    text: str
    plural: str = ""

    @property
    def id(self) -> str | tuple[str, str]:
        return (self.text, self.plural) if self.plural else self.text


def words() -> dict[str, set[Word]]:
    """The marked words of each app."""
    found: dict[str, set[Word]] = {app: set() for app in APPS}
    for path in templates():
        found[_app_of(path)].update(_of_template(path))
    for path in (
        path for app in APPS for path in ROOT.glob(f"{app}/**/*.py") if "migrations" not in path.parts
    ):
        found[_app_of(path)].update(_of_code(path))
    found["plates"] |= {Word(None, sentence) for sentence in SHOWN}
    found["bookings"] -= found["plates"]
    return found


def templates() -> list[Path]:
    """Whatever is laid out for people: pages, letters, papers, drawings."""
    return [path for path in ROOT.glob("templates/**/*") if path.suffix in {".html", ".txt", ".svg"}]


def unmarked(template: str) -> list[str]:
    """The words of a template that are said as they stand, in its text and in what its mark-up tells readers."""
    rest = re.sub(r"\{% blocktranslate\b.*?\{% endblocktranslate %\}", "", template, flags=re.DOTALL)
    rest = re.sub(r"\{% block kind %\}\w*", "", rest)  # the style of a paper
    rest = re.sub(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", " ", rest, flags=re.DOTALL)
    rest = re.sub(r"<style.*?</style>|&\w+;", " ", rest, flags=re.DOTALL)
    told = re.findall(r'(?:aria-label|alt|title|placeholder)="([^"]*)"', rest)
    text = re.sub(r'<(?:[^<>"]|"[^"]*")*>', " ", rest)
    return re.findall(r"[A-Za-z]{2,}", " ".join([text, *told]))


def catalogue(app: str, language: str) -> Catalog:
    """The catalogue as it stands in its file; empty where there is none yet."""
    path = _folder(app, language) / "django.po"
    if not path.exists():
        return Catalog(locale=language)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def bring_up_to_date(app: str, language: str, wanted: set[Word], before: dict[str, Catalog]) -> list[Word]:
    """Write the catalogue anew with exactly the words that are wanted; return those without a translation.

    `before`: the catalogues of all apps as they stood, so that a word that moves to another app keeps its translation.
    """
    anew = Catalog(
        locale=language, header_comment=HEAD.replace("PROJECT", language), creation_date=WRITTEN,
        revision_date=WRITTEN, project="Silver Hour", version="", copyright_holder="", fuzzy=False,
    )  # fmt: skip
    missing = []
    for word in sorted(wanted, key=lambda word: (word.text, word.context or "")):
        there = next(
            filter(None, (before[each].get(word.text, word.context) for each in (app, *before))), None
        )
        said = there.string if there is not None else ""
        if not (all(said) if isinstance(said, tuple) else said):
            missing.append(word)
        anew.add(word.id, said, context=word.context)
    folder = _folder(app, language)
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / "django.po").open("wb") as file:
        write_po(file, anew, no_location=True, width=116)
    with (folder / "django.mo").open("wb") as file:
        write_mo(file, anew)
    return missing


def _folder(app: str, language: str) -> Path:
    return ROOT / app / "locale" / language / "LC_MESSAGES"


def _app_of(path: Path) -> str:
    return "plates" if "plates" in path.relative_to(ROOT).parts[:2] else "bookings"


def _of_code(path: Path) -> Iterator[Word]:
    source = path.read_bytes()
    yield from _marked(source)
    code = ast.parse(source)
    yield from (Word(None, text) for text in _handed_over(code))
    for table in TABLES.get(str(path.relative_to(ROOT)), ()):
        yield from (Word(None, text) for text in _table(code, table).values())


def _handed_over(code: ast.Module) -> Iterator[str]:
    """What pure code says through the `say` that it was given, or as a Sentence: say("Take it out now")."""
    for node in ast.walk(code):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in {"say", "Sentence"}:
            yield from (told.value for told in node.args if isinstance(told, ast.Constant))


def _table(code: ast.Module, name: str) -> dict[str, str]:
    """What a module sets that name to."""
    (value,) = (
        node.value
        for node in code.body
        if isinstance(node, ast.Assign) and any(getattr(target, "id", "") == name for target in node.targets)
    )
    table: dict[str, str] = ast.literal_eval(value)
    return table


def _of_template(path: Path) -> Iterator[Word]:
    from django.utils.translation.template import templatize

    code = templatize(path.read_text(encoding="utf-8"))
    # It is Python but for the blanks that the mark-up leaves at the beginning of lines.
    yield from _marked(re.sub(r"^[ \t]+", "", code, flags=re.MULTILINE).encode())


def _marked(code: bytes) -> Iterator[Word]:
    for _line, message, _comments, context in extract("python", io.BytesIO(code), keywords=KEYWORDS):
        text, plural = message if isinstance(message, tuple) else (message, "")
        yield Word(context, text, plural)


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    for language in LANGUAGES:
        before = {app: catalogue(app, language) for app in APPS}
        for app, wanted in words().items():
            missing = bring_up_to_date(app, language, wanted, before)
            told = [f"{app} in {language}: {len(wanted)} words, {len(missing)} without a translation"]
            sys.stdout.write("\n  ".join([*told, *(word.text for word in missing)]) + "\n")


if __name__ == "__main__":
    main()
