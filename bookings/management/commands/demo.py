"""Load the practice studio."""

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from bookings.practice import studio as demo


class Command(BaseCommand):
    help = "Load the invented practice studio once, and say how to sign in. Only with SILVER_HOUR_DEMO=1."

    def handle(self, *args: Any, **options: Any) -> None:
        if not settings.DEMO:
            raise CommandError("The practice studio is for trying things out: set SILVER_HOUR_DEMO=1 first.")
        if not demo.load(now=timezone.now()):
            self.stdout.write("A studio is already set up here; its data was kept as it is.")
            return
        self.stdout.write("The practice studio is loaded: Gannet Lane Plate Rooms, Saltmarrow.")
        self.stdout.write(f"Photographer: sign in as {demo.PHOTOGRAPHER} with the password {demo.PASSWORD}")
