"""What is measured on a page, in the page."""

# Everything that the keyboard has to reach. Of radio buttons under one name it stops at one (HTML, 4.10.5.1.17).
CONTROLS = """
() => {
    const seen = element => element.checkVisibility({visibilityProperty: true}) && element.getClientRects().length
    const wanted = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex='0']"
    const names = new Set()
    return [...document.querySelectorAll(wanted)].filter(seen).filter(element => {
        if (element.type !== "radio") return true
        const group = [...document.getElementsByName(element.name)]
        return element === (group.find(radio => radio.checked) || group[0])
    })
}
"""

MARK_CONTROLS = f"""
() => ({CONTROLS})().map((element, place) => {{
    element.dataset.place = place
    return element.outerHTML.slice(0, 120)
}})
"""

# Whether a ring is drawn around what has the focus, and whether some of it can be seen (WCAG 2.2, 2.4.7, 2.4.11).
SHOWN = """
element => {
    const style = getComputedStyle(element)
    const ring = style.outlineStyle === "auto" || (style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2)
    const part = !element.matches(":focus")  // the little calendar in a date field: the browser draws its ring
    const box = element.getBoundingClientRect()
    const corners = [[.5, .5], [.05, .5], [.95, .5], [.5, .1], [.5, .9]]
    const uncovered = corners.some(([right, down]) => {
        const top = document.elementFromPoint(box.left + box.width * right, box.top + box.height * down)
        return top && (element.contains(top) || top.contains(element))
    })
    return {place: element.dataset.place ?? null, ring: ring || part, uncovered}
}
"""

FOCUSED = f"""
() => {{
    const element = document.activeElement
    return !element || element === document.body ? null : ({SHOWN})(element)
}}
"""

# Every control in turn is given the focus, as the keyboard would: those that Tab leaves out, and those not seen then.
FOCUS_EACH = f"""
() => {{
    const told = element => element.outerHTML.slice(0, 120)
    const unreached = [], blind = []
    for (const element of ({CONTROLS})()) {{
        element.focus({{focusVisible: true}})
        if (element.tabIndex < 0 || document.activeElement !== element) unreached.push(told(element))
        else {{
            const {{ring, uncovered}} = ({SHOWN})(element)
            if (!(ring && uncovered)) blind.push(`${{told(element)}} ring ${{ring}} uncovered ${{uncovered}}`)
        }}
    }}
    return [unreached, blind]
}}
"""

# Height of each control with its label; links in the run of a sentence are left out, as WCAG 2.2 (2.5.8) lets them be.
LOW_TARGETS = f"""
least => {{
    const inSentence = element => {{
        if (element.tagName !== "A" || getComputedStyle(element).display !== "inline") return false
        const block = element.closest("p, li, dd, td, address")
        return block && block.textContent.trim().length > element.textContent.trim().length
    }}
    const height = element => {{
        const boxes = [element, ...(element.labels || [])].map(each => each.getBoundingClientRect())
        return Math.max(...boxes.map(box => box.bottom)) - Math.min(...boxes.map(box => box.top))
    }}
    return ({CONTROLS})()
        .filter(element => !element.hasAttribute("tabindex") && !inSentence(element))
        .filter(element => height(element) < least - 0.5)
        .map(element => `${{Math.round(height(element))}} px: ${{element.outerHTML.slice(0, 120)}}`)
}}
"""

OPEN_ALL = "() => document.querySelectorAll('details').forEach(each => each.open = true)"
OVERHANG = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


def unfocused(page):
    """What `walked` finds, without the keys: it sees no trap, and takes a hundredth of the time."""
    return tuple(page.evaluate(FOCUS_EACH))


def walked(page):
    """Walk the page by Tab; return the controls that it does not reach, and those without a ring or covered."""
    controls = page.evaluate(MARK_CONTROLS)
    missing, blind = set(range(len(controls))), []
    for _ in range(2 * len(controls) + 20):
        if not missing:
            break
        page.keyboard.press("Tab")
        at = page.evaluate(FOCUSED)
        if at and at["place"] is not None:
            missing.discard(int(at["place"]))
            if not (at["ring"] and at["uncovered"]):
                blind.append(f"{controls[int(at['place'])]} ring {at['ring']} uncovered {at['uncovered']}")
    return [controls[place] for place in sorted(missing)], sorted(set(blind))
