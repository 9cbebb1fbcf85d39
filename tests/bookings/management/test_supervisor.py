"""The supervisor, with small programs in the places of the web server and the sender of notices."""

import os
import signal
import sys
import threading
import time

import pytest

from bookings.management.supervisor import Program, Supervisor

ENDURES = "import time; time.sleep(60)"
NOTES_ITS_START = "import os; open('starts', 'a').write(f'{os.getpid()}\\n'); "


def program(name, code):
    return Program(name, (sys.executable, "-c", code))


def supervisor(tmp_path, *, site, helper, said=None, **how):
    return Supervisor(
        site=program("the site", site),
        helper=program("the helper", helper),
        folder=tmp_path,
        say=(said if said is not None else []).append,
        **{"pause": 0.1, "grace": 10, **how},
    )


def starts(tmp_path):
    file = tmp_path / "starts"
    return file.read_text().split() if file.exists() else []


def tell_once(condition, number=signal.SIGTERM):
    """Send this process `number` as soon as `condition()` holds, at the latest after ten seconds."""

    def wait():
        deadline = time.monotonic() + 10
        while not condition() and time.monotonic() < deadline:
            time.sleep(0.05)
        os.kill(os.getpid(), number)

    thread = threading.Thread(target=wait)
    thread.start()
    return thread


def is_alive(pid):
    try:
        os.kill(int(pid), 0)
    except ProcessLookupError:
        return False
    return True


def test_a_helper_that_dies_is_started_again_after_the_pause(tmp_path):
    said = []
    told = tell_once(lambda: len(starts(tmp_path)) >= 3)

    code = supervisor(tmp_path, site=ENDURES, helper=NOTES_ITS_START + "raise SystemExit(3)", said=said).run()

    told.join()
    assert code == 0
    assert len(starts(tmp_path)) >= 3
    assert said[0] == "the helper ended (code 3) and is started again in 0.1 s."


def test_when_the_site_ends_everything_stops_with_its_code(tmp_path):
    said = []
    site = "import os, time\nwhile not os.path.exists('starts'): time.sleep(0.05)\nraise SystemExit(4)"

    code = supervisor(tmp_path, site=site, helper=NOTES_ITS_START + ENDURES, said=said).run()

    assert code == 4
    assert said == ["the site ended by itself (code 4), so everything stops."]
    assert [is_alive(pid) for pid in starts(tmp_path)] == [False]


@pytest.mark.parametrize("ending", ["raise SystemExit(0)", "import os; os.kill(os.getpid(), 9)"])
def test_a_site_that_ends_untold_is_a_failure_even_when_it_claims_success(tmp_path, ending):
    assert supervisor(tmp_path, site=ending, helper=ENDURES).run() == 1


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
def test_both_are_told_to_end_when_the_supervisor_is(tmp_path, number):
    told = tell_once(lambda: len(starts(tmp_path)) == 2, number)

    code = supervisor(tmp_path, site=NOTES_ITS_START + ENDURES, helper=NOTES_ITS_START + ENDURES).run()

    told.join()
    assert code == 0
    assert [is_alive(pid) for pid in starts(tmp_path)] == [False, False]


def test_what_does_not_end_in_time_is_killed(tmp_path):
    said = []
    told = tell_once(lambda: len(starts(tmp_path)) == 1)
    site = "import signal; signal.signal(signal.SIGTERM, signal.SIG_IGN); " + NOTES_ITS_START + ENDURES

    code = supervisor(tmp_path, site=site, helper=ENDURES, said=said, grace=0.5).run()

    told.join()
    assert code == 0
    assert said == ["the site did not end within 0.5 s and is killed."]
    assert [is_alive(pid) for pid in starts(tmp_path)] == [False]


def test_the_signals_mean_what_they_did_before_once_it_has_ended(tmp_path):
    before = signal.getsignal(signal.SIGTERM)

    supervisor(tmp_path, site="pass", helper=ENDURES).run()

    assert signal.getsignal(signal.SIGTERM) is before


def test_a_program_without_a_command_line_is_refused():
    with pytest.raises(ValueError, match="the site: a program needs a command line"):
        Program("the site", ())
