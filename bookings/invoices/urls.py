"""Addresses of invoices, below studio/."""

from django.urls import URLPattern, path

from bookings.invoices.views import invoices, runs, sealed

studio_urls: list[URLPattern] = [
    path("orders/<slug:reference>/invoice/", invoices.issue, name="issue"),
    path("orders/<slug:reference>/made-out-to/", invoices.made_out_to, name="made_out_to"),
    path("invoices/<int:invoice_id>.pdf", invoices.paper, name="invoice"),
    path("invoices/<int:invoice_id>.xml", invoices.electronic, name="einvoice"),
    path("invoices/<int:invoice_id>/take-back/", invoices.credit, name="take_back_invoice"),
    path("books/invoices/", runs.to_invoice, name="to_invoice"),
    path("books/runs/<int:run_id>/", runs.invoice_run, name="invoice_run"),
    path("books/runs/<int:run_id>/state/", runs.state, name="invoice_run_state"),
    path("books/runs/<int:run_id>/invoices.zip", runs.papers, name="invoice_run_papers"),
    path("books/kept/", sealed.kept_by_law, name="kept_by_law"),
]
