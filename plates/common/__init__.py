"""What many rooms of plates use and no job owns: forms, language, printing, spreadsheets, dates, who may enter.

`access.photographer` guards the studio's pages. `printing` turns a template into a tagged PDF, with nothing
fetched. `spreadsheet` writes RFC 4180 that no program takes for a formula. `words` says sentences of the pure
packages in the studio's language, `stock_words` why chemistry refuses. `dates` says what is today and what is one
press.

Rules
- Nothing here knows a room above it.

Decisions
- 2026-11-26: fonts are set up once for both apps: a default call of WeasyPrint leaks memory.
- 2026-11-26: dates are typed here, and may be those of any place on earth.
"""

__all__ = ["access", "dates", "forms", "printing", "spreadsheet", "stock_words", "words"]
