"""The tent as a telephone or a form asks for it."""

import json
from uuid import uuid4

from django.urls import reverse

from tests.builders import NOW

# Fixed, so that every worker of a test run calls its tests by the same names.
KEY = "6f0e4a52-3f0c-4f43-9a55-0d1f8f1e7a10"


def address(slot, name="tent"):
    return reverse(f"plates:{name}", args=[slot.job.day_id])


def sent(client, slot, **facts):
    """A press as a telephone sends it."""
    fields = {"press": str(uuid4()), "slot": slot.pk, "at": NOW.isoformat()} | facts
    return client.post(address(slot, "tent_press"), json.dumps(fields), content_type="application/json")


def form_of(answer, name):
    """The fields of a form of the page, as a browser without scripts would send them."""
    part = answer.content.decode().partition(f'<form id="{name}"')[2].partition("</form>")[0]
    inputs = [piece.partition(">")[0] for piece in part.split("<input ")[1:]]
    fields = [dict(fact.split("=", 1) for fact in piece.split()[1:]) for piece in inputs]
    return {field["name"].strip('"'): field["value"].strip('"') for field in fields}
