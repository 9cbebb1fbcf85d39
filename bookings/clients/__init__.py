"""What a client sees and decides: the sitting, papers and pictures, a copy of all data, consent, erasure.

Entry points: `services.erase`, `services.answer`, `selectors`; `views` behind links and step-ups.

Rules
- The long-lived link shows time and place only; everything else asks for a step-up (bookings.access).
- Erasure leaves orders, money and plates, and no person; invoices stay sealed.

Decisions
- 2026-11-26: a client is a mail address, also when erased: every client row, waiting list and voucher kept under
  it. One open order keeps all of it.
- 2026-11-26: on SQLite secure_delete and a truncated write-ahead log take the old bytes out of the file; on
  PostgreSQL vacuum does. The test fills every field with canaries and searches columns, files and logs.
"""
