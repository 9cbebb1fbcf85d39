"""Addresses of books, below studio/."""

from django.urls import URLPattern, path

from bookings.books.views import accounts, open

studio_urls: list[URLPattern] = [
    path("books/", open.books, name="books"),
    path("books/open/", open.open_invoices, name="open_invoices"),
    path("books/invoice/<int:invoice_id>/paid/", open.settle, name="settle"),
    path("books/invoice/<int:invoice_id>/mail/", open.mail_paper, name="mail_paper"),
    path("books/numbers/", accounts.year_end, name="numbers"),
    path("books/numbers.csv", accounts.numbers_file, name="numbers_file"),
    path("books/documents.csv", accounts.documents_file, name="documents_file"),
    path("books/payments.csv", accounts.payments_file, name="payments_file"),
    path("books/statements/", accounts.clients, name="statements"),
    path("books/statements/<int:client_id>/", accounts.statement, name="statement"),
    path("books/statements/<int:client_id>/statement.pdf", accounts.statement_paper, name="statement_paper"),
]
