"""A machine that has only Python and git: what the two commands do there, and what the files may hold."""

import os
import re
import shutil
import socket
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {  # the design's list, and what git and editors cannot do without
    "README.md", "DEVELOPERS.md", "LICENSE", "manage.py", "pyproject.toml",
    "requirements.txt", "requirements-dev.txt", ".gitignore", ".gitattributes", ".editorconfig",
    "bookings", "plates", "config", "templates", "static", "tests", "fixtures", "bin", ".ci",
}  # fmt: skip
SCRIPTS = ["bin/up", "bin/test", "bin/lock", ".ci/run"]
# In pieces, so that this file does not name what it looks for.
REGISTRIES = ["pypi" + ".org", "python" + "hosted", "npm" + "js.org", "deb" + "ian.org", "ubuntu" + ".com"]
INDEX_OPTIONS = ["--index" + "-url", "--extra-index" + "-url", "--find" + "-links"]


def kept_files():
    """Return the files that git keeps, whoever owns the folder."""
    listing = subprocess.run(
        ["git", "-c", "safe.directory=*", "ls-files", "-z"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return [name for name in listing.stdout.split("\0") if name and (ROOT / name).is_file()]


def texts():
    """Yield (name, text) of every kept file that is text."""
    for name in kept_files():
        content = (ROOT / name).read_bytes()
        if b"\0" not in content:
            yield name, content.decode()


def run(*command, **environment):
    """Run a script from another folder, with a PATH and a HOME and nothing else but `environment`."""
    basic = {"PATH": os.environ["PATH"], "HOME": os.environ.get("HOME", "/")}
    return subprocess.run(
        [ROOT / command[0], *command[1:]],
        cwd="/", env=basic | environment, capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip


def test_the_top_level_holds_only_what_the_design_names():
    assert {name.split("/")[0] for name in kept_files()} - TOP_LEVEL == set()


def test_no_file_names_a_package_registry():
    wanted = re.compile("|".join(map(re.escape, [*REGISTRIES, *INDEX_OPTIONS])))
    found = [(name, match[0]) for name, text in texts() for match in wanted.finditer(text)]

    assert found == []


def test_no_file_holds_a_path_of_one_machine():
    wanted = re.compile(r"""(?:^|[ "'=(])/(?:root|home|work|Users)/""", re.MULTILINE)
    found = [(name, match[0]) for name, text in texts() for match in wanted.finditer(text)]

    assert found == []


# "Hash-checking mode" of pip's documentation: one requirement without a hash, or not pinned by ==, is refused.
@pytest.mark.parametrize("lock", ["requirements.txt", "requirements-dev.txt"])
def test_every_package_in_a_lock_is_pinned_and_hashed(lock):
    logical = (ROOT / lock).read_text(encoding="utf-8").replace("\\\n", " ").splitlines()
    packages = [line for line in logical if line and not line.lstrip().startswith("#")]

    assert len(packages) > 20
    whole = re.compile(r"[A-Za-z0-9._-]+(\[[a-z,]+\])?==\S+( ; [^#]+?)?(\s+--hash=sha256:[0-9a-f]{64})+\s*")
    assert [line[:60] for line in packages if not whole.fullmatch(line)] == []


def test_the_two_locks_agree_on_every_package_they_share():
    pins = [
        dict(re.findall(r"^([a-z0-9._-]+)(?:\[[a-z,]+\])?==(\S+)", (ROOT / lock).read_text(), re.MULTILINE))
        for lock in ("requirements.txt", "requirements-dev.txt")
    ]
    shared = pins[0].keys() & pins[1].keys()

    assert {name: pins[1][name] for name in shared} == {name: pins[0][name] for name in shared}


@pytest.mark.parametrize("script", SCRIPTS)
def test_the_scripts_can_be_run_by_the_plainest_shell(script):
    assert os.access(ROOT / script, os.X_OK)
    assert (ROOT / script).read_text().startswith("#!/bin/sh\n")
    for shell in filter(shutil.which, ["dash", "sh", "bash"]):
        subprocess.run([shell, "-n", ROOT / script], check=True)


@pytest.mark.parametrize("port", ["0", "65536", "http", "80 80", "-1", "999999"])
def test_a_port_that_is_none_is_refused_before_anything_is_set_up(port):
    finished = run("bin/up", port)

    assert finished.returncode == 1
    assert finished.stderr.startswith(f"Stopped: the port must be a number from 1 to 65535, not '{port}'.")


def test_a_taken_port_is_said_in_a_sentence_that_names_a_way_out(tmp_path):
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = str(other.getsockname()[1])
        finished = run("bin/up", port, SILVER_HOUR_DATA=str(tmp_path / "data"))

    assert finished.returncode == 1
    assert finished.stderr == (
        f"Stopped: port {port} on 127.0.0.1 is taken, perhaps by a Silver Hour that already runs."
        " Choose another: bin/up 8080\n"
    )
    assert not (tmp_path / "data").exists()


@pytest.fixture
def bare_copy(tmp_path):
    """A copy of the scripts in a folder that has no .venv, so that set-up begins from nothing."""
    shutil.copytree(ROOT / "bin", tmp_path / "bin")
    return tmp_path / "bin" / "up"


@pytest.mark.parametrize("script", ["up", "test"])
def test_asking_for_help_sets_nothing_up(bare_copy, tmp_path, script):
    finished = run(bare_copy.with_name(script), "--help")

    assert finished.returncode == 0
    assert finished.stdout.startswith(f"bin/{script}")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["bin"]


def test_a_python_that_is_too_old_is_said_in_one_line(bare_copy, tmp_path):
    old = tmp_path / "python3.9"
    old.write_text("#!/bin/sh\nexit 1\n")  # what an old one answers to the question about its version
    old.chmod(0o755)

    finished = run(bare_copy, "8123", PYTHON=str(old))

    assert finished.returncode == 1
    assert finished.stderr == (
        "Stopped: Python 3.11 or newer is needed and was not found."
        " Install it, or name it: PYTHON=/path/to/python3.11\n"
    )
    assert not (tmp_path / ".venv").exists()


def test_a_machine_without_any_python_is_told_the_same(bare_copy, tmp_path):
    tools = tmp_path / "tools"
    tools.mkdir()
    for name in ("sh", "dirname", "cat"):
        (tools / name).symlink_to(shutil.which(name))

    finished = run(bare_copy, "8123", PATH=str(tools))

    assert finished.returncode == 1
    assert finished.stderr.startswith("Stopped: Python 3.11 or newer is needed")


def test_this_python_is_one_that_the_site_takes():
    required = re.search(r'requires-python = ">=3\.(\d+)"', (ROOT / "pyproject.toml").read_text())
    asked_by_set_up = re.search(r"sys\.version_info < \(3, (\d+)\)", (ROOT / "bin" / "lib.sh").read_text())

    assert required[1] == asked_by_set_up[1]
    assert sys.version_info >= (3, int(required[1]))


A_PYTHON = """#!/bin/sh
echo "$@" >> "$0.asked"
case "$*" in *"{refused}"*) exit 1 ;; esac
"""


@pytest.mark.parametrize(
    ("refused", "asked"),
    [
        ("nothing", ["-m pip install -qq --disable-pip-version-check --no-input uv=="]),
        ("uv==", ["uv==", "-r requirements.txt --require-hashes"]),
    ],
    ids=["without uv itself", "uv cannot be had"],
)
def test_where_uv_does_not_get_through_pip_installs_the_lock_with_its_hashes(tmp_path, refused, asked):
    """The Python of this environment is a stand-in that writes down what it is asked, and no uv appears by it."""
    python = tmp_path / "bin" / "python"
    python.parent.mkdir()
    python.write_text(A_PYTHON.replace("{refused}", refused))
    python.chmod(0o755)
    lines = f'set -eu; . bin/lib.sh; venv="{tmp_path}"; install_lock requirements.txt'

    subprocess.run(["sh", "-c", lines, "bin/up"], cwd=ROOT, check=True, capture_output=True)

    said = python.with_suffix(".asked").read_text().splitlines()
    assert len(said) == 2
    assert all(words in line for words, line in zip(asked, said, strict=False))
    assert said[-1].endswith("-r requirements.txt --require-hashes")


APT = """#!/bin/sh
# The first two calls find another apt at work.
echo called >>"$APT_CALLS"
[ "$(wc -l <"$APT_CALLS")" -gt "$APT_LOCKED" ] && exit 0
echo "E: Could not get lock $APT_LOCK. It is held by process 42 (apt-get)" >&2
exit 100
"""
INSTALL = '. bin/lib.sh; may_install() { return 0; }; as_root() { "$@"; }; apt_install poppler-utils'


@pytest.mark.parametrize(("locked", "code", "calls"), [("2", 0, 4), ("0", 0, 2), ("99", 1, 61)])
def test_another_apt_at_work_is_waited_for_and_not_for_ever(tmp_path, locked, code, calls):
    apt = tmp_path / "apt-get"
    apt.write_text(APT)
    apt.chmod(0o755)

    finished = subprocess.run(
        ["sh", "-c", INSTALL, "bin/test"], cwd=ROOT, capture_output=True, text=True, check=False,
        env={
            "PATH": f"{tmp_path}:{os.environ['PATH']}", "APT_PAUSE": "0", "APT_CALLS": str(tmp_path / "calls"),
            "APT_LOCKED": locked, "APT_LOCK": "/var/lib/apt/lists/lock",
        },
    )  # fmt: skip

    assert finished.returncode == code, finished.stderr
    assert len((tmp_path / "calls").read_text().split()) == calls
