"""The measures themselves: each one finds the fault that was planted for it."""

import pytest

from tests.browser import measures

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

WALKS = pytest.mark.parametrize("walk", [measures.walked, measures.unfocused])


@pytest.fixture
def blank(chromium):
    context = chromium.new_context(viewport={"width": 320, "height": 400})
    yield context.new_page()
    context.close()


def test_a_low_button_is_found_and_a_link_in_a_sentence_is_not(blank):
    blank.set_content("<button style='height:20px'>x</button><p>Read <a href='#'>the terms</a> first.</p>")

    assert [found[:14] for found in blank.evaluate(measures.LOW_TARGETS, 44)] == ["20 px: <button"]


def test_a_link_that_stands_alone_is_measured(blank):
    blank.set_content("<p><a href='#'>The terms</a></p>")

    assert len(blank.evaluate(measures.LOW_TARGETS, 44)) == 1


def test_a_small_box_with_a_tall_label_is_tall_enough(blank):
    blank.set_content(
        "<input type=checkbox id=a><label for=a style='display:inline-block;height:44px'>Yes</label>"
    )

    assert blank.evaluate(measures.LOW_TARGETS, 44) == []


def test_what_hangs_over_the_edge_is_found(blank):
    blank.set_content("<div style='width:400px'>wide</div>")

    assert blank.evaluate(measures.OVERHANG) > 0


@WALKS
def test_a_control_without_a_ring_is_found(blank, walk):
    blank.set_content("<a href='#' style='outline:none'>x</a><a href='#'>y</a>")

    unreached, blind = walk(blank)

    assert (unreached, len(blind)) == ([], 1)


@WALKS
def test_a_control_under_something_else_is_found(blank, walk):
    cover = "<div style='position:fixed;inset:0;background:#fff'></div>"
    blank.set_content(f"<a href='#'>x</a>{cover}")

    unreached, blind = walk(blank)

    assert (unreached, len(blind)) == ([], 1)


@WALKS
def test_a_control_that_the_keyboard_does_not_reach_is_found(blank, walk):
    blank.set_content("<a href='#'>x</a><button tabindex='-1'>y</button>")

    unreached, _ = walk(blank)

    assert [found[:7] for found in unreached] == ["<button"]


def test_inline_style_is_refused_by_the_policy_and_told(chromium, site, open_window):
    window = open_window(scripts=True)
    window.page.goto("/")

    window.page.evaluate("document.body.insertAdjacentHTML('beforeend', '<p style=\"color: red\">x</p>')")
    window.page.evaluate("1")  # one more answer, so that what the console told has come too

    assert any("style-src" in complaint for complaint in window.complaints)
    window.complaints.clear()


def test_what_is_asked_of_another_house_is_seen(open_window):
    window = open_window(scripts=True)

    window.page.set_content("<img src='http://127.0.0.1:9/x.png'>")

    assert window.strangers == ["http://127.0.0.1:9/x.png"]
    window.strangers.clear()
