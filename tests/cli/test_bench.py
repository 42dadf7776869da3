"""``benchlore bench`` as it is typed: the figures of published tables in words and for machines."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from benchlore.cli.bench import command


def run(*words: str):
    return CliRunner().invoke(command, words)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("divider", "12V", "10k", "4k7"), "3.837 V"),
        (("led", "12V", "2.1V", "10mA"), "1 kΩ (E24; exactly 990 Ω)"),
        (("rc", "100k", "470uF", "--from", "400V", "--to", "60V"), "from 400V to 60V in 89.2 s"),
        (("ripple", "1A", "100Hz", "4700uF"), "about 2.128 V peak to peak"),
        (("rectifier", "bridge", "253V", "--margin", "1.5"), "537 V, so 600 V or more"),
        (("life", "2000", "--rated", "105", "--at", "75"), "16000 h"),
        (("life", "10000", "--rated", "105", "--at", "30"), "count on fifteen years at most"),
        (("soak", "--gap", "500h"), "1151"),
        (("soak", "--ran", "24h"), "once in 10.4 h"),
        (("soak", "--ran", "5000h", "--failures", "4", "--confidence", "0.6"), "955 h"),
        (("trials", "0.1", "--confidence", "0.95"), "29 tries"),
        (("trials", "0.9", "--prior", "0.5"), "gone with a chance of 90.9 %"),
    ],
)
def test_in_words(words, said):
    done = run(*words)
    assert done.exit_code == 0, done.exception
    assert said in done.output.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("words", "key", "value"),
    [
        (("divider", "12V", "10k", "4k7", "--load", "10k"), "output", 12 * 3197.278911564626 / 13197.278911564626),
        (("rectifier", "centre-tap", "24V", "--current", "3A"), "inverse_V", 67.882),
        (("rc", "1M", "0.22uF"), "tau", 0.22),
        (("soak", "--gap", "1h", "--confidence", "0.95"), "soak", 2.995732 * 3600),
        (("trials", "0.05", "--confidence", "0.99"), "trials", 90),
    ],
)
def test_for_machines(words, key, value):
    assert json.loads(run(*words, "--json").output)[key] == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(
    "words",
    [("divider", "12V", "0", "4k7"), ("led", "2V", "3V", "10mA"), ("rc", "1k", "1uF", "--from", "5V"), ("soak",),
     ("rectifier", "octopus", "12V"), ("life", "1000", "--rated", "85", "--at", "105"), ("divider", "x", "1k", "1k")],
)  # fmt: skip
def test_what_makes_no_sense_is_said(words):
    done = run(*words)
    assert done.exit_code != 0
    assert type(done.exception).__name__ in {"BenchloreError", "SystemExit"}
    assert str(done.exception)
