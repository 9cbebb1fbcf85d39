"""The command that loads the practice studio, in a studio that is still empty."""

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from bookings.practice import studio as demo


def test_outside_practice_it_is_refused(db, settings):
    settings.DEMO = False

    with pytest.raises(CommandError, match="set SILVER_HOUR_DEMO=1 first"):
        call_command("demo")


def test_the_command_says_how_to_sign_in(db, settings, capsys):
    settings.DEMO = True

    call_command("demo")

    assert f"sign in as {demo.PHOTOGRAPHER} with the password {demo.PASSWORD}" in capsys.readouterr().out
