"""Nothing is kept that nobody uses: vulture's list, less what Django, templates and libraries use by name."""

import re
from pathlib import Path

from vulture import Vulture

ROOT = Path(__file__).resolve().parents[1]
# Classes and methods that a library finds by their name or their place.
BY_NAME = re.compile(
    r"clean_\w+|\w+Admin|\w+Config|\w+Middleware|Command|add_arguments|handle|has_\w+_permission|get_\w+"
    r"|formfield_for_\w+|process_\w+|state_forwards|database_(?:for|back)wards|compress|deconstruct|save_\w+"
)
# Used where vulture does not look. Each with the place.
KEPT = {
    "drain_due_work": "Celery calls it by name (bookings.outbox)",
    "append_only": "migrations",
    "put_up": "migrations",
    "taken_down": "migrations",
}


def names_in_templates():
    """Every word between the marks of a template."""
    texts = (path.read_text() for path in (ROOT / "templates").rglob("*") if path.is_file())
    return {
        word
        for text in texts
        for mark in re.findall(r"\{[{%](.*?)[%}]\}", text, re.DOTALL)
        for word in re.findall(r"\w+", mark)
    }


def unused():
    """Functions, methods, classes and imports that no code and no template of the product names."""
    vulture = Vulture()
    vulture.scavenge(
        [str(ROOT / app) for app in ("bookings", "plates", "config")], exclude=["*/migrations/*"]
    )
    known = names_in_templates() | KEPT.keys()
    return [
        f"{Path(item.filename).relative_to(ROOT)}:{item.first_lineno} {item.name}"
        for item in vulture.get_unused_code(min_confidence=60)
        if item.typ in {"function", "method", "class", "import", "property", "unreachable_code"}
        and item.name not in known
        and not BY_NAME.fullmatch(item.name)
    ]


def test_no_code_is_kept_that_nobody_uses():
    assert unused() == []


def test_nothing_is_kept_by_name_that_is_gone():
    source = "\n".join(
        path.read_text() for app in ("bookings", "plates") for path in (ROOT / app).rglob("*.py")
    )

    assert [name for name in KEPT if not re.search(rf"def {name}\b", source)] == []
