"""What would lift a refusal for want of a solution, in words. Amounts are whole microlitres and told in mL."""

from django.utils.translation import gettext as _

from plates.capacity import Refusal

UL_IN_ML = 1000


def remedy(refusal: Refusal) -> str:
    """The sentence that says what would make room, or nothing where no one thing was found to."""
    why, _name, name = refusal.why.partition(":")
    if why != "budget" or refusal.lifted_by is None:
        return ""
    missing = int(refusal.lifted_by.removeprefix(f"{name}+"))
    return _("Another %(amount)d mL of it, ripe by then, would do.") % {"amount": -(-missing // UL_IN_ML)}
