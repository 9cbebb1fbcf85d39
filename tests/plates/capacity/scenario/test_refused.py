"""Bad scenario files: exit 2, one line, the field by name; never a traceback (design page s.3)."""

import io
import json
import subprocess
import sys
from types import SimpleNamespace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from plates.capacity import CapacityValueError
from plates.capacity.__main__ import main
from plates.capacity.scenario.reading import read

BAD = [
    ("", "file: is not JSON"),
    ("{", "file: is not JSON"),
    ("[]", "file: must be a JSON object"),
    ("null", "file: must be a JSON object"),
    ("{}", "day: is missing"),
    ('{"day": null}', "day: must be a JSON object"),
    ('{"day": {"opens": 600}}', 'day.opens: must be a time such as "10:00"'),
    ('{"day": {"opens": "9:00"}}', 'day.opens: must be a time such as "10:00"'),
    ('{"day": {"opens": "10:60"}}', 'day.opens: must be a time such as "10:00"'),
    ('{"day": {"opens": "48:00"}}', 'day.opens: must be a time such as "10:00"'),
    ('{"day": {"opens": "\u0661\u0660:\u0660\u0660"}}', 'day.opens: must be a time such as "10:00"'),
    ('{"day": {"closes": "10:00"}}', "day.closes: must be after opens"),
    ('{"day": {"racks_empty_by": "09:00"}}', "day.racks_empty_by: must be after opens"),
    ('{"day": {"start_every": 0}}', "day.start_every: must be from 1 to 1440"),
    ('{"day": {"start_every": 7.5}}', "day.start_every: must be a whole number"),
    ('{"day": {"shuts": "18:00"}}', "day.shuts: is not a key of a scenario"),
    ('{"day": {}, "day": {}}', "day: is given twice"),
    ('{"day": {"opens": "10:00", "opens": "11:00"}}', "opens: is given twice"),
    ('{"day": {}, "tables": 1}', "tables: is not a key of a scenario"),
    ('{"day": {}, "line\\nbreak": 1}', '"line\\nbreak": is not a key of a scenario'),
    ('{"day": {}, "bench": []}', "bench: must be a JSON object"),
    ('{"day": {}, "bench": {"operators": 0}}', "bench.operators: must be from 1 to 20"),
    ('{"day": {}, "bench": {"operators": true}}', "bench.operators: must be a whole number"),
    ('{"day": {}, "bench": {"wash_places": "6"}}', "bench.wash_places: must be a whole number"),
    ('{"day": {}, "bench": {"largest_mm": [1]}}', "bench.largest_mm: must be two sides in millimetres"),
    ('{"day": {}, "bench": {"largest_mm": [0, 1]}}', "bench.largest_mm: must be sides above 0"),
    ('{"day": {}, "bench": {"largest_mm": [1, "2"]}}', "bench.largest_mm: must be a number from 0 to 5000"),
    ('{"day": {}, "tolerance": -1}', "tolerance: must be from 0 to 240"),
    ('{"day": {}, "tolerance": NaN}', "file: must not hold NaN"),
    ('{"day": {}, "tolerance": -Infinity}', "file: must not hold -Infinity"),
    ('{"day": {}, "tolerance": 1e999}', "file: holds a number too large"),
    ('{"day": {}, "tolerance": ' + "9" * 6000 + "}", "file: is not JSON"),
    ('{"day": {}, "tolerance": ' + "9" * 30 + "}", "tolerance: must be from 0 to 240"),
    ('{"day": {}, "timings": {"wash": 60}}', "timings.wash: must be [least, most] minutes"),
    ('{"day": {}, "timings": {"wash": [60, "120"]}}', "timings.wash: must be a whole number"),
    (
        '{"day": {}, "timings": {"sensitise": [5, 3]}}',
        "timings.sensitise: must not have its most below its least",
    ),
    ('{"day": {}, "timings": {"wet_window": 4}}', "timings.wet_window: must hold load, expose and develop"),
    ('{"day": {}, "timings": {"dry": 4}}', "timings.dry: is not a key of a scenario"),
    ('{"day": {}, "timings": {"first_pour_within": 1}}', "bench.first_pour_within: must reach past settle"),
    ('{"day": {}, "sizes": {"": {}}}', 'sizes."".name: must be 1 to 60 letters'),
    ('{"day": {}, "sizes": {"a": {"mm": [1, 2, 3]}}}', "sizes.a.mm: must be two sides in millimetres"),
    ('{"day": {}, "sizes": {"a": {"mm": [0, 2]}}}', "sizes.a.mm: must be sides above 0"),
    ('{"day": {}, "sizes": {"a": 1}}', "sizes.a: must be a JSON object"),
    ('{"day": {}, "sittings": {}}', "sittings: must be a list of up to 120"),
    ('{"day": {}, "sittings": [{"plates": ["quarter"]}]}', "sittings[0].start: must be a time"),
    ('{"day": {}, "sittings": [{"start": "10:00"}]}', "sittings[0].plates: must name at least one plate"),
    (
        '{"day": {}, "sittings": [{"start": "10:00", "plates": ["x"]}]}',
        "sittings[0].plates[0]: must be one of quarter",
    ),
    ('{"day": {}, "sizes": {}, "ask": {"plates": ["x"]}}', "ask.plates[0]: must be one of no sizes"),
    ('{"day": {}, "ask": {"plates": []}}', "ask.plates: must name at least one plate"),
    ('{"day": {}, "ask": {"plates": [["quarter"]]}}', "ask.plates[0]: must be one of quarter, whole"),
    ('{"day": {}, "ask": []}', "ask: must be a JSON object"),
    (
        '{"day": {}, "ask": {"plates": ["quarter"]}, "most": {"plates": ["quarter"]}}',
        "most: cannot be asked together with ask",
    ),
    ('{"day": {}, "budgets": [{"left": 1}]}', "budgets[0].name: must be 1 to 60 letters"),
    ('{"day": {}, "budgets": [{"name": "silver"}]}', "budgets[0].left: must be a whole number"),
    (
        '{"day": {}, "budgets": [{"name": "silver", "left": 1, "use": {"quarter": -1}}]}',
        "budgets[0].use.quarter: must be from 0",
    ),
    ('{"day": {}, "risk": {"retake": 1}}', "risk.retake: must be a number from 0 to 0.95"),
    ('{"day": {}, "risk": {"late_sd": "4"}}', "risk.late_sd: must be a number from 0 to 120"),
    ('{"day": {}, "risk": {"chance_limit": 1.1}}', "risk.chance_limit: must be a number from 0 to 1"),
    ('{"day": {}, "risk": {"chance_limit": false}}', "risk.chance_limit: must be a number from 0 to 1"),
    ('{"day": {}, "risk": {"chance_limits": 1}}', "risk.chance_limits: is not a key of a scenario"),
    ("[" * 100000, "file: is nested too deeply"),
]


@pytest.mark.parametrize(("text", "line"), BAD, ids=range(len(BAD)))
def test_what_does_not_fit_is_named_in_one_line(text, line):
    with pytest.raises(CapacityValueError) as refused:
        read(text)

    assert str(refused.value).startswith(line)
    assert "\n" not in str(refused.value)


def command(monkeypatch, content):
    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=io.BytesIO(content)))
    return main(["-"])


def test_bad_input_is_exit_two_and_one_line(monkeypatch, capsys):
    assert command(monkeypatch, b'{"day": {"opens": 1}}') == 2

    out = capsys.readouterr()
    assert (out.out, out.err) == ("", 'day.opens: must be a time such as "10:00"\n')


@pytest.mark.parametrize("content", [b"\xff\xfe", b"\x80{}"])
def test_what_is_not_text_is_refused(monkeypatch, capsys, content):
    assert command(monkeypatch, content) == 2
    assert capsys.readouterr().err == "file: cannot be read as UTF-8 text\n"


@pytest.mark.parametrize("arguments", [["missing.json"], ["."], ["nul\0"]])
def test_a_file_that_cannot_be_read_is_refused(capsys, arguments):
    assert main(arguments) == 2
    assert capsys.readouterr().err == "file: cannot be read as UTF-8 text\n"


@pytest.mark.parametrize("arguments", [[], ["a", "b"]])
def test_the_command_takes_one_file(capsys, arguments):
    assert main(arguments) == 2
    assert capsys.readouterr().err == "file: must be one path, or - for standard input\n"


def test_the_module_runs_as_a_command():
    done = subprocess.run(
        [sys.executable, "-m", "plates.capacity", "-"],
        input=b'{"day": []}', capture_output=True, check=False, timeout=60,
    )  # fmt: skip

    assert (done.returncode, done.stdout, done.stderr) == (2, b"", b"day: must be a JSON object\n")


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8)
    | st.sampled_from(["10:00", "quarter"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)  # fmt: skip
KEYS = ("day", "bench", "timings", "sizes", "tolerance", "sittings", "ask", "most", "budgets", "risk")
INNER = (
    "opens",
    "closes",
    "operators",
    "wash",
    "pour",
    "quarter",
    "start",
    "plates",
    "mm",
    "retake",
    "name",
    "left",
)
objects = st.dictionaries(st.sampled_from(INNER), json_values, max_size=4)
scenarios = st.dictionaries(
    st.sampled_from(KEYS), json_values | objects | st.lists(objects, max_size=2), max_size=5
)


def refusal_of(text):
    """The refusal of a scenario, or None when it was read."""
    try:
        read(text)
    except CapacityValueError as refused:
        return refused
    return None


@settings(max_examples=300)
@given(scenarios)
@example({"day": {}, "sizes": {"\ud800": {}}, "ask": {"plates": ["no"]}})
@example({"day": {}, "sizes": {"a": {"mm": ["\n", 1]}}})
def test_any_object_is_read_or_refused_by_name_in_one_line(scenario):
    refused = refusal_of(json.dumps({"day": {}} | scenario))

    assert refused is None or (refused.field and str(refused).isprintable())


@given(st.text())
def test_any_text_is_read_or_refused_in_one_line(text):
    refused = refusal_of(text)

    assert refused is None or str(refused).isprintable()
