"""What many rooms of bookings use and no job owns: amounts and times in words, forms, paper, codes, countries.

`formats` writes amounts, dates and times in the studio's locale (Babel). `forms` holds the bases of all forms.
`paper` prints a template, `archive` makes a PDF that is to be kept. `codes` makes codes and QR pictures.
`country_codes` is pure; `countries` names them in the language that is spoken. `http` answers with files and leads
to the card page.

Rules
- Nothing here knows a room above it, or a row other than the studio's.

Decisions
- 2026-11-26: made as PDF/A-3a and PDF/UA-1, not certified: no validator of PDF/A is at hand. Metadata, attachment
  list and kind are amended in WeasyPrint's finisher; a new major release of it has to pass
  tests/bookings/common/test_archive.py.
"""

__all__ = ["archive", "codes", "countries", "country_codes", "formats", "forms", "http", "paper"]
