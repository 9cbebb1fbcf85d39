"""Why chemistry refuses, and what would lift it, in words. Amounts of solutions are whole microlitres, told in mL."""

from django.utils.translation import gettext as _

from plates.capacity import Refusal

UL_IN_ML = 1000


def bath_words(name: str) -> str:
    """What a bath runs out of, by the name of its budget; nothing for a solution."""
    return {
        "bath strength": _("Strength of the silver bath"),
        "bath light": _("Silver bath until its rest"),
    }.get(name, "")


def bath_reason(refusal: Refusal) -> str:
    """The sentence for a refusal by the silver bath, with what lifts it; nothing for any other."""
    return {
        "budget:bath strength": _(
            "By then the silver bath is too weak for these plates: strengthen it first."
        ),
        "budget:bath light": _(
            "By then the silver bath is due to be rested in light: sun it, or put another one to use, first."
        ),
    }.get(refusal.why, "")


def remedy(refusal: Refusal) -> str:
    """The sentence that says how much more of a solution would make room, or nothing."""
    why, _colon, name = refusal.why.partition(":")
    if why != "budget" or refusal.lifted_by is None or bath_words(name):
        return ""
    missing = int(refusal.lifted_by.removeprefix(f"{name}+"))
    return _("Another %(amount)d mL of it, ripe by then, would do.") % {"amount": -(-missing // UL_IN_ML)}
