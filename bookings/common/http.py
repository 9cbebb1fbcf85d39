"""Answers that are files."""

from django.http import HttpResponse
from django.utils.http import content_disposition_header


def pdf(content: bytes, name: str) -> HttpResponse:
    disposition = content_disposition_header(False, name)
    headers = {"Content-Disposition": disposition or "inline", "Cache-Control": "no-store"}
    return HttpResponse(content, content_type="application/pdf", headers=headers)
