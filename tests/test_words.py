"""The catalogues hold what the program says, and nothing else; and nothing is said without being marked for them."""

import ast
import gettext
import re

import pytest
from django.utils import translation

from plates.tent.selectors.screen import SAID
from tests import words
from tests.words import APPS, LANGUAGES, ROOT

CATALOGUES = [(app, language) for app in APPS for language in LANGUAGES]
IDS = [f"{app}-{language}" for app, language in CATALOGUES]
# %(name)s of templates, {name} of code, mark-up and per cent signs: a translation has to keep them.
MARKS = re.compile(r"%\(\w+\)[sd]|%%|\{\w*(?:![rs])?\}|</?\w[^>]*>")
# Words that stand in no mouth: units, forms of files, the name of this program.
UNSAID = {"mm", "mL", "Silver", "Hour", "UTC", "XML", "PDF"}
# What is told to whoever runs the program, or to the card service, and what is pure: it knows no other language.
SPOKEN_ELSEWHERE = {"migrations", "management", "money", "einvoice", "rehearsal"}


@pytest.fixture(scope="module")
def marked():
    return words.words()


def said(app, language):
    """What a catalogue has for each word."""
    return {
        words.Word(entry.context, *([entry.id] if isinstance(entry.id, str) else entry.id)): entry.string
        for entry in words.catalogue(app, language)
        if entry.id
    }


@pytest.mark.parametrize(("app", "language"), CATALOGUES, ids=IDS)
def test_every_word_is_translated_and_none_is_left_over(marked, app, language):
    entries = said(app, language)

    untold = [word for word in marked[app] if not all(_forms(entries.get(word, "")))]
    assert untold == [], "run `python -m tests.words` and fill in what it names"
    assert set(entries) - marked[app] == set(), "run `python -m tests.words`"


@pytest.mark.parametrize(("app", "language"), CATALOGUES, ids=IDS)
def test_a_translation_keeps_what_is_put_in_and_the_mark_up(app, language):
    for word, string in said(app, language).items():
        for form, text in zip(_forms(string), (word.text, word.plural), strict=False):
            assert sorted(MARKS.findall(form)) == sorted(MARKS.findall(text)), text


@pytest.mark.parametrize(("app", "language"), CATALOGUES, ids=IDS)
def test_the_compiled_catalogue_is_that_of_the_words(app, language):
    """Read by the standard library, as Django reads it."""
    with (ROOT / app / "locale" / language / "LC_MESSAGES" / "django.mo").open("rb") as file:
        compiled = gettext.GNUTranslations(file)

    for word, string in said(app, language).items():
        forms = [_told(compiled, word, number) for number in (1, 2)[: len(_forms(string))]]
        assert forms == _forms(string), "run `python -m tests.words`"


def test_english_is_what_is_written_in_the_code(marked):
    """Django brings British words of its own: none of ours may meet another spelling there."""
    with translation.override("en-gb"):
        met = {word.text: _told(translation, word) for app in APPS for word in marked[app]}

    assert {text: found for text, found in met.items() if found != text} == {}


def test_a_template_says_nothing_that_is_not_marked():
    found = {}
    for path in words.templates():
        said = set(words.unmarked(path.read_text(encoding="utf-8"))) - UNSAID
        if said:
            found[str(path.relative_to(ROOT))] = said

    assert found == {}


def test_the_scripts_of_the_tent_say_what_the_page_brings_them():
    scripts = "".join(
        (ROOT / "static" / name).read_text() for name in ("tent.js", "tent-page.js", "tent-store.js")
    )
    asked = set(re.findall(r'tent\.say\("([^"]+)"', scripts))

    assert asked
    assert asked <= set(SAID)


def test_no_refusal_is_said_that_is_not_marked():
    found = []
    for path in [
        *ROOT.glob("bookings/**/*.py"),
        *ROOT.glob("plates/[!c]*/**/*.py"),
        *ROOT.glob("plates/*.py"),
    ]:
        if not (SPOKEN_ELSEWHERE & set(path.parts) or path.match("cards/events.py")):
            found += [f"{path.relative_to(ROOT)}:{line}" for line in _plain_refusals(path.read_text())]

    assert found == []


def _plain_refusals(code):
    """The lines that raise one of our refusals with a plain sentence."""
    known = _refusals()
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call) and node.exc.args:
            name = getattr(node.exc.func, "id", getattr(node.exc.func, "attr", ""))
            if name in known and isinstance(node.exc.args[0], ast.JoinedStr | ast.Constant):
                yield node.lineno


def _refusals():
    files = (ROOT / "bookings" / "errors.py", ROOT / "plates" / "errors.py")
    return {
        node.name
        for file in files
        for node in ast.walk(ast.parse(file.read_text()))
        if isinstance(node, ast.ClassDef)
    } | {"ValidationError"}


def _forms(string):
    return list(string) if isinstance(string, tuple | list) else [string]


def _told(by, word, number=1):
    """What a catalogue makes of a word; `by` has gettext, ngettext and pgettext."""
    if word.plural:
        return by.ngettext(word.text, word.plural, number)
    return by.pgettext(word.context, word.text) if word.context else by.gettext(word.text)
