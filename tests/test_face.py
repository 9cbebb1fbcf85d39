"""What holds for the whole face: nothing inline, nothing from outside, and colours that can be read."""

import re

import pytest
from django.conf import settings

PAGES = sorted(
    path
    for path in (settings.BASE_DIR / "templates").rglob("*")
    if path.suffix in {".html", ".svg"} and not {"mail", "papers"} & set(path.parts)
)
# A file of the site's own, run once the page is there.
OWN_SCRIPT = r"<script src=\"{% static '[a-z-]+\.js' %}\" defer></script>"
STYLE = (settings.BASE_DIR / "static" / "site.css").read_text(encoding="utf-8")


def colour(name):
    return re.search(rf"--{name}: (#[0-9a-f]{{6}});", STYLE).group(1)


def luminance(hex_colour):
    """Relative luminance by the formula of WCAG 2.2 (definition of relative luminance)."""
    parts = [int(hex_colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    lighter, darker = sorted([luminance(one), luminance(other)], reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_there_are_pages_to_look_at():
    assert len(PAGES) > 25


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_a_page_has_no_inline_code_and_takes_nothing_from_outside(page):
    text = re.sub(OWN_SCRIPT, "", page.read_text(encoding="utf-8"))

    assert not re.search(r"<script|<style|\sstyle=|\son[a-z]+=|javascript:|\|safe\b|https?://", text)


def test_the_style_takes_nothing_from_outside():
    assert not re.search(r"url\(|@import|https?:", STYLE)


def test_the_contrast_formula_gives_the_published_extreme():
    # 21:1 for black on white: WCAG 2.2, definition of contrast ratio.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("ground", ["paper", "card", "field", "oxide-pale"])
@pytest.mark.parametrize("ink", ["ink", "japan", "pencil", "oxide-deep"])
def test_writing_can_be_read_on_every_ground(ink, ground):
    # 4.5:1 for text: WCAG 2.2, success criterion 1.4.3.
    assert contrast(colour(ink), colour(ground)) >= 4.5


@pytest.mark.parametrize("ground", ["paper", "card", "field"])
def test_the_ring_of_focus_can_be_seen(ground):
    # 3:1 for what shows a control and its state: WCAG 2.2, success criterion 1.4.11.
    assert contrast(colour("oxide"), colour(ground)) >= 3
