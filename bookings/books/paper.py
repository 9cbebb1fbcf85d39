"""A client's statement as PDF: every paper and every payment in order, and what is owed in the end."""

from datetime import date, datetime

from bookings.books.selectors.statements import ClientAccount, Entry, Statement
from bookings.common import formats
from bookings.common import paper as press
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio


def statement_pdf(statement: Statement, *, now: datetime) -> bytes:
    """The statement as it stands at `now`, on the sheet of the studio's country."""
    studio = the_studio()
    words = {
        "studio": studio,
        "studio_address": studio.address.splitlines(),
        "client": statement.client,
        "made_on": formats.long_date(_today(statement, now), studio.locale),
        "accounts": [_account(account, studio) for account in statement.accounts],
    }
    return press.pdf("bookings/books/papers/statement.html", words, paper=press.Paper.of(studio.country))


def _today(statement: Statement, now: datetime) -> date:
    """The date on the clock of the client's last sitting."""
    entries = [entry for account in statement.accounts for entry in account.entries]
    return entries[-1].order.sitting.day.local(now).date() if entries else now.date()


def _account(account: ClientAccount, studio: Studio) -> dict[str, object]:
    def written(minor: int) -> str:
        return formats.amount(minor, account.currency, studio.locale)

    def row(entry: Entry) -> dict[str, str]:
        return {
            "on": formats.short_date(entry.on, studio.locale),
            "text": entry.text,
            "reference": entry.order.reference,
            "asked": written(entry.asked) if entry.asked else "",
            "paid": written(entry.paid) if entry.paid else "",
            "balance": written(entry.balance),
        }

    return {
        "currency": account.currency,
        "entries": [row(entry) for entry in account.entries],
        "owed": written(account.owed),
        "ahead": written(account.ahead) if account.ahead else "",
    }
