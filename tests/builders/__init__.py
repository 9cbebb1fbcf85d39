"""Small worlds for tests, built through the real services. Plain functions; every time is an argument.

Everything is invented: Gannet Lane Plate Rooms in Saltmarrow, euro, one 23 % tax class, addresses at
example.org. Asking twice for the studio, a size or the terms gives the same row, so that builders can be
combined freely.
"""

from tests.builders.days import NOW, SATURDAY, a_bench, a_day, a_venue
from tests.builders.lines import a_line_place, a_waiting
from tests.builders.orders import a_held_order, a_paid_order, a_placed_order, a_voucher, pay
from tests.builders.plates import STAGES, made_plate, made_plates
from tests.builders.prices import SIZES, a_discount, a_size, a_surcharge, a_tax_class, an_extra
from tests.builders.studio import a_studio, an_operator, finishing, some_terms, usual_finishing

__all__ = [
    "NOW",
    "SATURDAY",
    "SIZES",
    "STAGES",
    "a_bench",
    "a_day",
    "a_discount",
    "a_held_order",
    "a_line_place",
    "a_paid_order",
    "a_placed_order",
    "a_size",
    "a_studio",
    "a_surcharge",
    "a_tax_class",
    "a_venue",
    "a_voucher",
    "a_waiting",
    "an_extra",
    "an_operator",
    "finishing",
    "made_plate",
    "made_plates",
    "pay",
    "some_terms",
    "usual_finishing",
]
