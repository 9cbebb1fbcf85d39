"""An invoice as a machine reads it: EN 16931 in the syntax CII, as the profile "EN 16931" of Factur-X writes it.

Pure Python over lxml: frozen values in, bytes out. Nothing here knows the database or a clock. The terms (BT-.. one
value, BG-.. a group of values, BR-.. a rule) are those of the standard; they were read in public copies of its
validation rules.
"""

from bookings.invoices.einvoice.cii import write
from bookings.invoices.einvoice.values import Document, Line, Party, TaxShare, why_not

__all__ = ["Document", "Line", "Party", "TaxShare", "why_not", "write"]
