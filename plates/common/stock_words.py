"""Why chemistry refuses, and what would lift it, in words. Amounts of solutions are whole microlitres, told in mL."""

from dataclasses import replace

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from plates.capacity import Refusal
from plates.capacity.problem.answers import budget_cause

UL_IN_ML = 1000


# Solutions within a sentence, by the names of their budgets.
WITHIN: dict[str, str] = {
    "collodion": gettext_noop("collodion"),
    "developer": gettext_noop("developer"),
    "fixer": gettext_noop("fixer"),
    "varnish": gettext_noop("varnish"),
}


def solution_within(name: str) -> str:
    """What a solution is called within a sentence; a name that is none of ours stays as it is."""
    return _(WITHIN[name]) if name in WITHIN else name


def named(refusal: Refusal) -> Refusal:
    """The same refusal with its solution as it is called in the studio's language."""
    return replace(refusal, why=budget_cause(solution_within(refusal.budget))) if refusal.budget else refusal


def bath_words(name: str) -> str:
    """What a bath runs out of, by the name of its budget; nothing for a solution."""
    return {
        "bath strength": _("Strength of the silver bath"),
        "bath light": _("Silver bath until its rest"),
    }.get(name, "")


def bath_reason(refusal: Refusal) -> str:
    """The sentence for a refusal by the silver bath, with what lifts it; nothing for any other."""
    return {
        "bath strength": _("By then the silver bath is too weak for these plates: strengthen it first."),
        "bath light": _(
            "By then the silver bath is due to be rested in light: sun it, or put another one to use, first."
        ),
    }.get(refusal.budget, "")


def remedy(refusal: Refusal) -> str:
    """The sentence that says how much more of a solution would make room, or nothing."""
    if refusal.missing is None or bath_words(refusal.budget):
        return ""
    amount = -(-refusal.missing // UL_IN_ML)
    return _("Another %(amount)d mL of it, ripe by then, would do.") % {"amount": amount}
