"""The books: what is open, what came, and what the accountant and the client are given.

Words: a journal is a period's documents or payments as CSV; a statement is one client's account. Entry points:
`selectors.journal`, `selectors.numbers`, `selectors.statements`, `services`, `paper.statement_pdf`.

Rules
- Nothing here is stored but a payment that settles an invoice; all is worked out from documents and ledger.
- Files for the accountant stay in English.

Decisions
- 2026-11-26: "no gap" is proved from the rows of the invoices and held against the counter; the counter alone
  proves nothing.
- 2026-11-26: statements go by mail address, because a client row is made for each order; an erased one has none.
"""
