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
    """The first cells of the dependency table, in small letters."""
    table = DEVELOPERS.partition("## Why each dependency is here")[2].partition("\n## ")[0]
    return " ".join(line.split("|")[1].lower() for line in table.splitlines() if line.startswith("|"))


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
    "name", sorted(set(re.findall(r"`(tests/[\w/.]+|(?:plates|bookings)/[\w/]+\.py)`", DEVELOPERS)))
)
def test_each_file_that_the_engineers_page_names_is_there(name):
    assert (ROOT / name).exists()
