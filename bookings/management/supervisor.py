"""Two programs that live and end together: the site, and the helper that sends what is due."""

import os
import signal
import subprocess
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

LOOK_EVERY = 0.5  # seconds
STOP_SIGNALS = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP)


@dataclass(frozen=True)
class Program:
    """A command line, under the name by which it is spoken of."""

    name: str
    command: tuple[str, ...]

    def __post_init__(self) -> None:
        if not self.command:
            raise ValueError(f"{self.name}: a program needs a command line.")


@dataclass
class Supervisor:
    """Keeps the helper running for as long as the site runs. Both work in `folder`.

    `pause` is the seconds between the helper's end and its next start, so that one that cannot start does not
    keep the machine busy; `grace` the seconds that both get to finish what is in hand before they are killed.
    """

    site: Program
    helper: Program
    folder: Path
    say: Callable[[str], object]
    pause: float = 5
    grace: float = 30

    def __post_init__(self) -> None:
        self.told_to_stop = threading.Event()

    def run(self) -> int:
        """Run both until the site ends or this process is told to stop. Return the exit code, 0 if told."""
        before = {number: signal.signal(number, self._tell) for number in STOP_SIGNALS}
        running = {program.name: self._start(program) for program in (self.site, self.helper)}
        try:
            self._watch(running)
        finally:
            self._stop(running)
            for number, handler in before.items():
                signal.signal(number, handler)
        if self.told_to_stop.is_set():
            return 0
        code = running[self.site.name].returncode
        self.say(f"{self.site.name} ended by itself (code {code}), so everything stops.")
        return code if code > 0 else 1

    def _watch(self, running: dict[str, subprocess.Popen[bytes]]) -> None:
        while not self.told_to_stop.wait(LOOK_EVERY) and running[self.site.name].poll() is None:
            code = running[self.helper.name].poll()
            if code is None:
                continue
            self.say(f"{self.helper.name} ended (code {code}) and is started again in {self.pause:g} s.")
            if self.told_to_stop.wait(self.pause):
                return
            running[self.helper.name] = self._start(self.helper)

    def _start(self, program: Program) -> subprocess.Popen[bytes]:
        # A session of its own: Ctrl-C is told to this process only, which passes it on once, as SIGTERM.
        return subprocess.Popen(program.command, cwd=self.folder, start_new_session=True)

    def _tell(self, number: int, frame: FrameType | None) -> None:
        self.told_to_stop.set()

    def _stop(self, running: dict[str, subprocess.Popen[bytes]]) -> None:
        """Ask all to end, wait, then kill what is left together with its own children."""
        for process in running.values():
            if process.poll() is None:
                process.terminate()
        deadline = time.monotonic() + self.grace
        for name, process in running.items():
            try:
                process.wait(max(0, deadline - time.monotonic()))
            except subprocess.TimeoutExpired:
                self.say(f"{name} did not end within {self.grace:g} s and is killed.")
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()
