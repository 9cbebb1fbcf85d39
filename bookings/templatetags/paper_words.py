"""Words of the papers in templates."""

from django import template

from bookings.invoices import paper as invoice_paper

register = template.Library()


@register.filter
def tax_name(category: str, rate_bp: int) -> str:
    """A tax category of EN 16931 with its rate, as a person reads it."""
    return invoice_paper.tax_name(category, rate_bp)
