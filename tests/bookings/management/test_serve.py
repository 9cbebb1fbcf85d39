"""`manage.py serve`: the address it refuses, what it starts, and one whole start and stop of the real site."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import contextmanager

import pytest
from celery import Celery
from django.conf import settings
from django.core.management import CommandError, call_command

from bookings.management.commands import serve
from tests.machines import free_port


@pytest.mark.parametrize("address", ["8000", ":8000", "127.0.0.1", "127.0.0.1:http", ""])
def test_an_address_without_host_or_port_is_refused(address):
    with pytest.raises(CommandError, match=r"write HOST:PORT, such as 127\.0\.0\.1:8000"):
        call_command("serve", address=address)


def test_a_port_that_is_no_port_is_refused():
    with pytest.raises(CommandError, match=r"cannot listen on 127\.0\.0\.1:70000"):
        call_command("serve", address="127.0.0.1:70000")


def test_a_taken_port_is_said_in_a_sentence():
    with socket.create_server(("127.0.0.1", 0)) as other:
        address = f"127.0.0.1:{other.getsockname()[1]}"

        with pytest.raises(CommandError) as refused:
            call_command("serve", address=address)

    assert str(refused.value).startswith(f"The site cannot listen on {address}: ")
    assert str(refused.value).endswith("Choose another port.")


def test_without_a_broker_the_rows_are_drained_by_one_process(settings):
    settings.REDIS_URL = ""

    assert serve.helper().command[1:] == ("manage.py", "drain", "--forever")


def test_with_a_broker_one_worker_also_has_the_beat(settings):
    settings.REDIS_URL = "redis://127.0.0.1:6379/0"

    command = serve.helper().command
    assert command[1:7] == ("-m", "celery", "-q", "-A", "config", "worker")
    assert "-B" in command


def answer(address):
    """Return the status of GET `address`, or None while nobody listens."""
    try:
        with urllib.request.urlopen(address, timeout=5) as response:
            return response.status
    except urllib.error.HTTPError as error:
        with error:
            return error.code
    except OSError:
        return None


@pytest.fixture(scope="module")
def environment(tmp_path_factory):
    """The environment of a studio of its own, with its tables made once."""
    own = {
        "SILVER_HOUR_DATA": str(tmp_path_factory.mktemp("studio")),
        "DJANGO_SETTINGS_MODULE": "config.settings",
    }
    environment = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"} | own
    manage = [sys.executable, "manage.py", "migrate", "--verbosity", "0"]
    subprocess.run(manage, cwd=settings.BASE_DIR, env=environment, check=True)
    return environment


@contextmanager
def serving(environment, port):
    """Run the site on `port` and stop it at the end; the process then has `returncode` and `words`."""
    command = [sys.executable, "manage.py", "serve", "--address", f"127.0.0.1:{port}", "--workers", "1"]
    with subprocess.Popen(command, cwd=settings.BASE_DIR, env=environment, stderr=subprocess.PIPE) as site:
        try:
            yield site
        finally:
            site.send_signal(signal.SIGTERM)
            site.words = site.communicate(timeout=40)[1].decode()


def first_result(attempt, *, seconds=30):
    """Return what `attempt()` returns as soon as that is something, or its last answer after `seconds`."""
    deadline = time.monotonic() + seconds
    while not (result := attempt()) and time.monotonic() < deadline:
        time.sleep(0.2)
    return result


def test_the_site_starts_answers_and_leaves_nothing_behind(environment):
    port = free_port()
    with serving(environment, port) as site:
        status = first_result(lambda: answer(f"http://127.0.0.1:{port}/sign-in/"))

    assert status == 200, site.words
    assert site.returncode == 0, site.words
    assert answer(f"http://127.0.0.1:{port}/sign-in/") is None
    assert site.words == ""


@pytest.mark.redis
def test_with_a_broker_the_worker_hears_the_bell_and_ends_with_the_site(environment, redis_url):
    with (
        Celery(broker=redis_url) as bell,
        serving(environment | {"REDIS_URL": redis_url}, free_port()) as site,
    ):
        heard = first_result(lambda: bell.control.ping(timeout=1))
        known = bell.control.inspect(timeout=2).registered()

    assert [list(answer.values()) for answer in heard] == [[{"ok": "pong"}]], site.words
    assert "bookings.tasks.drain_due_work" in next(iter(known.values()))
    assert site.returncode == 0, site.words
