"""The two pages for people keep step with what is there."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text()
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text()
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())


def named(requirement):
    return re.match(r"[A-Za-z0-9.-]+", requirement).group().lower()


def reasons():
    """What stands under the dependencies, in small letters."""
    return DEVELOPERS.partition("## Dependencies")[2].lower()


@pytest.mark.parametrize(
    "package", sorted(map(named, PROJECT["project"]["dependencies"] + PROJECT["dependency-groups"]["dev"]))
)
def test_each_dependency_has_its_reason(package):
    assert re.search(rf"(?<![\w-]){re.escape(package)}(?![\w-])", reasons())


@pytest.mark.parametrize(
    "command", sorted(path.stem for path in ROOT.glob("bookings/management/commands/[a-z]*.py"))
)
def test_each_command_is_told_of(command):
    assert f"manage.py {command}" in README + DEVELOPERS


@pytest.mark.parametrize("path", re.findall(r"!\[[^]]*\]\(([^)]+)\)", README))
def test_each_picture_is_there(path):
    assert (ROOT / path).is_file()


def test_the_readme_opens_with_the_job_in_one_paragraph():
    title, paragraph, following, *_ = README.split("\n\n")

    assert title.startswith("# ")
    assert paragraph.startswith("A wet-plate portrait studio sells one-of-a-kind plates")
    assert following.startswith("## Two commands")


@pytest.mark.parametrize(
    "name", sorted(set(re.findall(r"`((?:tests|templates|plates|bookings)/[\w/.]+)`", DEVELOPERS)))
)
def test_each_place_that_the_engineers_page_names_is_there(name):
    assert (ROOT / name).exists()


def rooms():
    """Every package right below one of the two apps, but for those that Django gives meaning to."""
    django = {"management", "migrations", "locale", "templatetags"}
    return {
        f"{app}/{folder.name}"
        for app in ("plates", "bookings")
        for folder in (ROOT / app).iterdir()
        if (folder / "__init__.py").exists() and folder.name not in django
    }


def test_the_map_names_each_room_once_and_none_that_is_gone():
    named = re.findall(r"^\| `((?:plates|bookings)/\w+)` \| \w", DEVELOPERS, re.MULTILINE)

    assert sorted(named) == sorted(rooms())


def test_the_engineers_page_stays_one_page():
    assert len(DEVELOPERS.encode()) <= 10 * 1024
