"""Writes ``tests/vectors/search_tokens.json``: run after a change of the contract.

Read the difference before committing it.

``python -m tests.index.make_vectors``
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

VECTORS = Path(__file__).parents[1] / "vectors" / "search_tokens.json"
VOCABULARY = {
    "symptom": {
        "no-power": ["No power", "won't turn on", "completely dead", "does nothing"],
        "relay-chatter": ["Relay chatters", "relay chatter", "chattering relay"],
        "blown-fuse": ["Fuse blown", "blown fuse"],
        "burnt-smell": ["Burnt smell", "smells of burning"],
        "hum": ["Hums"],
        "no-cooling": ["No cooling", "doesn't cool"],
    },
    "failure-mode": {
        "open": ["Open", "open circuit", "blown"],
        "low-capacitance": ["Low capacitance", "lost its value"],
    },
    "component": {
        "fuse": ["Fuse"],
        "relay": ["Relay"],
        "electrolytic-capacitor": ["Electrolytic capacitor", "electrolytic", "elcap"],
        "linear-regulator": ["Linear regulator", "3-terminal regulator"],
    },
}
TEXTS = """
relay chatters
The relay chatters when it's cold.
Relay is chattering
relay, chatter
chatter of the relay
won't turn on
wont turn on
Won’t turn on; completely dead
it does nothing
no power
No power at all, fuse not blown
fuse not blown
the fuse is not blown
fuse isn't blown
no blown fuse
no sign of a blown fuse
fuse blown
blown fuse, no burnt smell
never hums
doesn't hum
hums and hums
no cooling
cooling stops
smells of burning
not completely dead
open circuit
not open
electrolytic capacitor lost its value
3-terminal regulator
a 3 terminal regulator
the and of it
not
no
BWC-02
BWC 02
bwc02
BWC_02 rev B
BWC.02/B
BWC - 02
BWC  02
board BWC-02, BWC-03 and BWC 04
PCB-4471/2
PCB 4471 2
TWB-1
twb 1
TW-12 and TW-8
BW-16
BW 16 V
BW16 fan runs
model 12
12
1
a 1 b 2
2019
2019-05-03
10:30
IRF840
irf 840
IRF-840A
1N4007
1n4007
2N3055
BC 547B
LM317T
TDA2030
7805
78L05
NE555
U2 output
C1
C1, C2 and R12
C1/C2
Q3-e
94V-0
E 123456
abcdef 12
abcde 12
abcde 12345678
abcde 123456789
the 12
in 24
4k7
4700 ohm
4.7 kΩ
4.7kohm
4K7J
R22
0R22
R047
2u2
2.2 µF
2.2 uF
2,2 µF
0.47uF
470n
470 nF
470nF 275 V ac
n47
100 nF X2 275 V ac
1 µF ±10 %
24 V
24V
24 V ±5 %
24 volts
12V6
-12 V
- 12 V
−12 V
±15 V
5V supply
5 V
3.3 V rail
230 V 50 Hz
230v 50hz
85..264 V ac
9..23 V
<50 mV p-p
over 1 MΩ
≥1 MΩ
~3 Hz
10 mF
10 MHz crystal
32.768 kHz
100 W 8 ohm
10 k
10k
10K pot
1M
1M5
4k7 and 4.7 kΩ
C3 47 µF 25 V
replaced C3 (47 µF 25 V) by 63V type
3 A fuse
T2A 250V
T 2 A
5x20 mm
M3 screw
M4x10
1/4 W
3/4 A
1/2W
Ø 5 mm
20 °C
105°C
-20 °C
100 %
50%
1000000000000 V
0 V
0.0 ohm
007
fuſe
ＦＵＬＬ ｗｉｄｔｈ ４ｋ７
Überhitzung
café naïve
ﬁne ﬂux
İstanbul
ΩΜΕΓΑ
漢字 12
漢字
𝒳 12
𝟜k𝟟
😀 relay 😀
e\u0301clair
don’t, can't, it's
rock'n'roll
''quoted''
o'clock 9'30
line one
under_score_word
a-b-c
a-b-1
x-ray
semi-automatic
--help
C:/temp/x1
www.example.org
a@b.example
#5
1,000
1.2.3
v1.2.3-beta
0x1F
mark:bwc02
value:ohm:47e2
pair:a+b
symptom:no-power
raw:relay
class:dehumidifier
capacitors capacitance capacitive
overheat overheating overheated
running runs ran
ss
s
ab
abc
abcd
supercalifragilisticexpialidociousantidisestablishmentarianismsx
supercalifragilisticexpialidociousantidisestablishmentarianismsxy1
A1B2C3D4E5F6G7H8I9J0
12345678901234567890123456789012345678901-2
relay\trelay
relay\u00a0relay
bwc\u00a002
bwc\u200902
bwc\u200b02
bwc–02
bwc‐02
bwc‑02
bwc—02
bwc·02
""".strip("\n").split("\n")


def vectors() -> dict[str, Any]:
    """The texts with their terms and items, over a small vocabulary of their own."""
    from benchlore.index.tokens import analyse, items_of, terms_of
    from benchlore.terms.recogniser import Recogniser
    from tests.index.test_tokens import small_vocabulary

    recogniser = Recogniser(small_vocabulary(VOCABULARY))
    cases = []
    for text in ["", " ", "\n", "x" * 64, "x" * 65, "1" * 40, "1" * 41, "relay\nchatters\r\nbwc\t02", *TEXTS]:
        analysis = analyse(text, recogniser)
        cases.append({"text": text, "terms": terms_of(analysis), "items": items_of(analysis)})
    return {
        "about": "Texts to search terms and items (index/tokens.py), over this vocabulary: label first, then phrases.",
        "vocabulary": VOCABULARY,
        "phrases": [[kind, term_id, list(stems)] for kind, term_id, stems in recogniser.phrases()],
        "texts": cases,
    }


if __name__ == "__main__":
    if not VECTORS.exists():
        VECTORS.write_text('{"vocabulary": {}, "texts": []}', encoding="utf-8")
    made = vectors()
    head = {key: value for key, value in made.items() if key != "texts"}
    lines = ",\n".join("  " + json.dumps(case, ensure_ascii=False) for case in made["texts"])
    text = json.dumps(head, ensure_ascii=False, indent=1)[:-2] + f',\n "texts": [\n{lines}\n ]\n}}\n'
    VECTORS.write_text(text, encoding="utf-8")
