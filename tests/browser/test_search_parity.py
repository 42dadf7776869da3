"""Search in the browser over published parts against search in Python: the same answers to the last figure."""

from __future__ import annotations

import json
import os
import random
import time
from dataclasses import astuple
from pathlib import Path

import pytest

from benchlore import data
from benchlore.index.browser_parts import browser_parts
from benchlore.index.documents import document
from benchlore.index.judged import read_judged
from benchlore.index.lexicon import VocabularyLexicon
from benchlore.index.nearest_values import nearest_values
from benchlore.index.search import Answer, Searcher
from benchlore.index.store import MemoryStore
from benchlore.publish.theme.script_lists import SEARCHING
from benchlore.read.base import Base
from tests.browser.script_page import SCRIPTS, write_script_page
from tests.browser.strings import chance_strings
from tests.index.made_up import made_up, record, vocabulary

VECTORS = Path(__file__).parents[1] / "vectors"
QUERIES = [
    # symptoms, as technicians say them
    "relay chatters", "won't turn on", "completely dead", "no heat", "hums", "trips the breaker", "blows fuses",
    "fan runs no cooling", "display dims", "burnt smell", "motor slow and sparking", "skips stitches", "cuts out hot",
    # a board marking in three spellings and more, models, makers
    "BWC-02", "bwc02", "BWC 02", "bw c 02", "BWC_02", "BW-16", "bw16", "bw 16", "Brackwater", "Orrin & Dace",
    "BW16 fan runs no water, compresser clicks", "quillstead qv-30", "QV-30", "HG 3005",
    # part numbers and their starts
    "irf8", "IRF840", "irf*", "rel*", "PCB-1", "pcb 12", "1n4007", "c1", "bw",
    # values in three notations and more
    "4k7", "4700 ohm", "4.7 kΩ", "0.47uF", "470n", "0,47 µF", "1 µF 310 V ac", "24 V", "-12V", "12V6",
    # facets in the query, phrases, negation
    "class:dehumidifier", "hums class:bench-power-supply", 'maker:"Orrin & Dace" dead', "maker:nobody",
    "outcome:not-repaired", "board:BWC-02 board:PCB-3", "year:2026 relay", "colour:green", "CLASS:Dehumidifier",
    'class:"dehumidifier"class:x', '"a"class:dehumidifier "b" class:', "relay\tclass:dehumidifier\nclass:x",
    '"loose screw"', '"relay chatters"', '"relay', "“dropper capacitor”", '"no power"', "fuse not blown",
    "no sign of burning", "no hum", "never stops",
    # values near, without a unit, with a tolerance, states
    "4.6 k", "4.6k ±1%", "4.6 kΩ ± 5 %", "460n", "0.46 uF ±20%", "0.47", "0,47", "12.6", "470", "4700", "1.2.3", "-4.7",
    "99 nF", "1 µF ± 99 %", "open", "OL", "C1 open circuit", "shorted", "not open", "0 V",
    # exclusion, ranges
    "hums -class:dehumidifier", "-class:dehumidifier -outcome:repaired", "minutes:..60 relay", "minutes:30-60",
    "minutes:60", "minutes:>120", "year:2024..2025", "year:2025..", "-year:2025", "cost:..5", "cost:x", "year:..",
    "class:- relay", "minutes:007..0090",
    # mistakes, empty and odd ones
    "BWC-O2", "bwco2", "1RF840", "irf84o", "PCB-l", "fanruns", "loosescrew", "chat ter", "re-lay clicks", "loo se",
    "compressser", "capcitr", "vibratoin", "dehumidifer", "overheeting",
    "relya chater", "capasitor", "compresser", "", "   ", "the and of", "?!", "-", '""', "*", "a*", "ma*", "1*",
    "10:30", "it made a noise after the water got in and then the lamp went dim and it stopped", "relay " * 60,
    "ÉTANCHÉITÉ", "fuſe", "ＢＷＣ－０２", "漢字 12", "𝟜k𝟟 relay", "symptom:no-power", "mark:bwc02", "raw:relay",
    "pair:a+b", "__proto__", "constructor",
]  # fmt: skip
FILTERS = [
    {}, {"class": ["dehumidifier"]}, {"class": ["dehumidifier", "sewing-machine"], "outcome": ["repaired"]},
    {"class": ["-dehumidifier"], "minutes": ["..60"]}, {"year": ["2024..2025"], "cost": ["0..5", "6..20"]},
    {"maker": ["Orrin & Dace"]}, {"board": ["BWC 02"]}, {"year": ["2025"], "licence": ["CC-BY-SA-4.0"]}, {"hazard": []},
]  # fmt: skip
ASK = """async ([queries, filters, sort]) => {
  const chosen = new Map(Object.entries(filters));
  const answers = [];
  for (const query of queries) {
    const answer = await Benchlore.findEntries(query, chosen, 50, sort);
    answers.push({ ...answer, facets: await Benchlore.findFacets(answer) });
  }
  return JSON.stringify(answers.map(answer => ({
    total: answer.total,
    hits: answer.hits.map(hit => [hit.slug, hit.title, hit.score, hit.reasons, hit.missed, hit.sisterOf, hit.card]),
    facets: answer.facets,
    readAs: answer.readAs.map(({kind, text, label}) => ({kind, text, label})),
    sisters: answer.sisters,
    corrected: answer.corrected.map(one => [one.typed, one.read]),
    filters: Object.fromEntries(answer.filters),
  })));
}"""


def as_asked(answer: Answer) -> dict:
    """Python's answer in the shape that ``ASK`` gives."""
    return {
        "total": answer.total,
        "hits": [
            [
                hit.slug,
                hit.title,
                hit.score,
                [{"kind": r.kind, "text": r.text, "found": r.found, "field": r.field} for r in hit.reasons],
                list(hit.missed),
                hit.sister_of,
                {"slug": hit.slug, **{n.rstrip("_"): getattr(hit.card, n) for n in hit.card.__dataclass_fields__}},
            ]
            for hit in answer.hits
        ],
        "facets": [
            {
                "name": facet.name,
                "label": facet.label,
                "values": [
                    {
                        "key": v.key, "label": v.label, "count": v.count, "chosen": v.chosen, "excluded": v.excluded,
                    }
                    for v in facet.values
                ],
            }
            for facet in answer.facets
        ],
        "readAs": [{"kind": part.kind, "text": part.text, "label": part.label} for part in answer.read_as],
        "sisters": [
            {"marking": s.marking, "boards": list(s.boards), "models": list(s.models)} for s in answer.sisters
        ],
        "corrected": [list(pair) for pair in answer.corrected],
        "filters": {name: list(keys) for name, keys in answer.filters.items()},
    }


@pytest.fixture(scope="module")
def records():
    demo = Base(data.folder("entries").parent).records()
    kanji = {"class": "dehumidifier", "model": "漢-12", "boards": [{"marking": "PCB-1"}]}
    letters = {"class": "sewing-machine", "model": "PCB", "boards": [{"marking": "漢-PCB"}]}
    odd = [
        record("zz-odd-1", title="Überhitzung: fuſe 漢字 12 and 𝒳-ray lamp 😀", equipment=kanji),
        record("zz-odd-2", title="<b>markup</b> & \u2028 signs", equipment=letters),
        record("zz-odd-3", title="__proto__ constructor", symptoms=[{"note": "constructor __proto__ toString"}]),
    ]
    return sorted([*demo, *made_up(150), *odd], key=lambda r: r.slug)


@pytest.fixture(scope="module")
def searcher(records):
    documents = [document(r, vocabulary(), licence="CC-BY-SA-4.0", currency="EUR") for r in records]
    return Searcher(MemoryStore(documents), VocabularyLexicon(vocabulary()))


@pytest.fixture(scope="module")
def site(records, tmp_path_factory):
    return write_site(tmp_path_factory.mktemp("site"), records)


def write_site(folder, records):
    page = write_script_page(folder, [*SEARCHING, "search_nearest.js"])
    (folder / "scripts" / "fold_far.js").write_bytes((SCRIPTS / "fold_far.js").read_bytes())
    for name, text in browser_parts(records, vocabulary(), licence="CC-BY-SA-4.0", currency="EUR").items():
        target = folder / name
        target.parent.mkdir(exist_ok=True)
        target.write_text(text, encoding="ascii")
    return page


def compare(page, searcher, queries, filters, sort="relevance"):
    """Ask both sides; returns how many of the queries found something."""
    found = 0
    for query, theirs in zip(queries, json.loads(page.evaluate(ASK, [queries, filters, sort])), strict=True):
        ours = as_asked(searcher.search(query, filters, 50, sort))
        for mine, other in zip(ours["hits"], theirs["hits"], strict=False):
            assert other[2] == pytest.approx(mine[2], rel=1e-9, abs=1e-9), query
            other[2] = mine[2]
        for part in ("readAs", "corrected", "sisters", "filters", "total", "hits", "facets"):
            assert theirs[part] == ours[part], (query, part)
        found += ours["total"] > 0
    return found


@pytest.mark.parametrize("sort", ["newest", "quickest"])
def test_other_orders(page, site, searcher, sort):
    page.goto(site.as_uri())
    assert compare(page, searcher, ["", "relay", "BW-16", "minutes:..60", "nothing-at-all"], {}, sort) > 3


@pytest.mark.parametrize("filters", FILTERS, ids=str)
def test_written_queries(page, site, searcher, filters):
    page.goto(site.as_uri())
    found = compare(page, searcher, QUERIES[::5] if filters else QUERIES, filters)
    assert found > (5 if filters else 60)


def test_chance_queries(page, site, searcher, records):
    page.goto(site.as_uri())
    chance = random.Random(11)
    titles = [r.entry.title.split() for r in records]
    mixed = [" ".join(chance.sample(chance.choice(titles), k=2)) for _ in range(60)]
    slipped = [words[0][:2] + chance.choice("abst") + words[0][3:] for words in chance.sample(titles, 40)]
    assert compare(page, searcher, [*chance_strings(500, 5), *mixed, *slipped], {}) > 300


def test_ten_thousand_chance_strings(page, site, searcher):
    """All of them with BENCHLORE_EXHAUSTIVE=1; else as many as fit into a quarter of a minute."""
    page.goto(site.as_uri())
    until = None if os.environ.get("BENCHLORE_EXHAUSTIVE") else time.monotonic() + 15
    texts = chance_strings(10_000, 77)
    compared = 0
    while compared < len(texts) and (until is None or time.monotonic() < until):
        compare(page, searcher, texts[compared : compared + 250], {})
        compared += 250
    assert compared == len(texts) if until is None else compared >= 250


def test_every_judged_query(page, tmp_path):
    records = Base(data.folder("entries").parent).records()
    documents = [document(r, vocabulary(), licence="CC-BY-SA-4.0", currency="EUR") for r in records]
    at = write_site(tmp_path, records)
    page.goto(at.as_uri())
    queries = [judged.query for judged in read_judged(VECTORS / "judged_queries.yaml")]
    asked = Searcher(MemoryStore(documents), VocabularyLexicon(vocabulary()))
    assert compare(page, asked, queries, {}) > 0.9 * len(queries)


def test_what_is_nearest_when_nothing_is_found(page, site, searcher):
    page.goto(site.as_uri())
    counted = searcher.search("", limit=0).facets
    queries = ["capacitors bulging", "brackwatr", "relay pcb", "qqqq", "", "smel", "the dehumidifiers", "motor motors"]
    theirs = page.evaluate(
        """async queries => {
          const all = await Benchlore.findFacets(await Benchlore.findEntries("", new Map(), 0));
          const near = query => {
            const found = Benchlore.nearestValues(all, query);
            return found.length > 0 ? found : Benchlore.commonestValues(all);
          };
          return queries.map(query => near(query).map(({facet, key, label, count}) => [facet, key, label, count]));
        }""",
        queries,
    )
    assert theirs == [[list(astuple(value)) for value in nearest_values(counted, query)] for query in queries]
    assert all(theirs)


def test_a_filter_that_is_no_facet_is_refused(page, site):
    page.goto(site.as_uri())
    told = page.evaluate("Benchlore.findEntries('relay', new Map([['colour', ['green']]])).catch(e => e.message)")
    assert told == "there is no facet colour"
