"""Rows of before 2026-12 had their facts packed into one text; after the migration each stands in its column."""

from datetime import UTC, datetime
from uuid import uuid4

import pytest
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from bookings.access import services as access
from bookings.access.models import Purpose
from tests import builders
from tests.builders import NOW

BEFORE, AFTER = [("bookings", "0001_initial")], [("bookings", "0003_notice_facts")]


def migrated(to):
    executor = MigrationExecutor(connection)
    executor.migrate(to)
    return executor.loader.project_state(to).apps.get_model("bookings", "Notice").objects


@pytest.mark.django_db(transaction=True)
def test_facts_packed_into_the_occasion_are_unpacked_once():
    order = builders.a_placed_order(builders.a_day())
    link = access.ask(order_id=order.pk, purpose=Purpose.DATA, now=NOW)
    order.notices.all().delete()
    try:
        old = migrated(BEFORE)
        for kind, occasion in [
            ("confirmed", "3"), ("ready", "0"), ("later", "2026-11-28T10:20Z 2"), ("step_up", str(link.pk)),
            ("step_up", "99999"),
        ]:  # fmt: skip
            old.create(order_id=order.pk, kind=kind, occasion=occasion, message_id=str(uuid4()), due_at=NOW)
    finally:
        notices = migrated(AFTER)

    facts = notices.order_by("id").values_list("kind", "sequence", "expected_at", "step_up")
    assert list(facts) == [
        ("confirmed", 3, None, None),
        ("ready", None, None, None),
        ("later", None, datetime(2026, 11, 28, 10, 20, tzinfo=UTC), None),
        ("step_up", None, None, link.pk),
    ]
