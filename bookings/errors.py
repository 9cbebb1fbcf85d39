"""What can be refused on the human side, each as a sentence a person can act on."""


class BookingsError(Exception):
    """Base of everything this app refuses. `str()` of it is fit to be shown; `status` is what a page answers with."""

    status = 409


class SubmissionChanged(BookingsError):
    """A form came twice under one key but asks for something else the second time."""


class NothingChosen(BookingsError):
    """An order without a plate or a sitter, or with more than can be taken at once."""


class NotForSale(BookingsError):
    """A size or extra that has no price on that date or is no longer offered, or a day that is not open."""


class DiscountRefused(BookingsError):
    """A code that belongs to no discount, does not hold on that date, or was named as often as it may be."""


class NotInLight(BookingsError):
    """The sun does not stand high enough for as long as that sitting would take."""


class NotPlaced(BookingsError):
    """The order has no client yet, so it cannot be paid, invoiced or confirmed."""


class OrderCancelled(BookingsError):
    """The order was cancelled."""


class CostChanged(BookingsError):
    """What a change costs is no longer what the page said."""


class NotByTheTerms(BookingsError):
    """The terms of the order say something else for a sitting without a plate."""


class TooMuchBack(BookingsError):
    """More would be given back than was paid."""


class CashNotCounted(BookingsError):
    """The cash box was counted meanwhile, or what was entered does not hold together."""


class ReferenceTaken(BookingsError):
    """A payment with this reference is in the ledger with another amount or order."""


class VoucherRefused(BookingsError):
    """A voucher cannot pay, or cannot be changed like that."""


class UnknownCode(VoucherRefused):
    """No voucher has the code that was typed."""


class TooManyCodes(VoucherRefused):
    """Wrong codes were typed too often; answered with 429."""

    status = 429


class BalanceOwed(BookingsError):
    """A plate cannot be handed over while money is owed for it."""


class HandoverRefused(BookingsError):
    """Plates that cannot be given to whoever asks for them, or sent, like that."""


class LinkInvalid(BookingsError):
    """A link that was not made by this studio, or that has run out."""

    status = 410


class TooManyLinks(BookingsError):
    """Several letters with a link went out just now; another would not help."""


class ShutAway(BookingsError):
    """A paper of somebody who was forgotten: no page of daily work shows it."""


class NotErased(BookingsError):
    """A client cannot be forgotten while something is still open between client and studio."""


class OrderInvoiced(BookingsError):
    """The invoice of an order was issued, so its lines can no longer change."""


class InvoiceRefused(BookingsError):
    """An invoice cannot be issued for this order."""


class CreditRefused(BookingsError):
    """An invoice cannot be taken back like that."""


class EInvoiceRefused(BookingsError):
    """An issued invoice that cannot be written in electronic form; on paper it holds all the same."""


class StudioMissing(BookingsError):
    """The studio's name, address and currency have not been entered yet."""

    status = 503


class MarkRefused(BookingsError):
    """A mark on a sitter that contradicts what is marked already, or that comes too late to be taken back."""


class LineRefused(BookingsError):
    """The walk-up line cannot be joined, or a place in it cannot be changed like that."""


class WaitingRefused(BookingsError):
    """The waiting list of a day cannot be joined like that."""


class NothingToTell(BookingsError):
    """A sitter is told of a new time only while one is expected to begin later than promised."""


class NothingOwed(BookingsError):
    """Where nothing is left to pay no card is asked for, and no invoice is marked as paid."""


class NothingToInvoice(BookingsError):
    """None of the orders that were ticked waits for an invoice."""


class CardRefused(BookingsError):
    """A sum that the card service cannot take, or cannot give back."""


class CardServiceAway(BookingsError):
    """The card service does not answer, or not as it should. Nothing was changed here."""


class MessageRefused(BookingsError):
    """A message that was not signed by the card service just now, or that cannot be read."""
