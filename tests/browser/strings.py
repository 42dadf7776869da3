"""Strings of all kinds for comparing Python with the browser, always the same ones."""

from __future__ import annotations

import random

PIECES = (
    "won't turn on", "doesn’t", "fuse not blown", "no heat", "relay chatters", "4k7", "4700 ohm", "0.47uF", "470n",
    "0,47 µF", "24 V ±10 %", "3.3 V +5/-10 %", "±15 V", "85..264 V ac", "<50 mV p-p", "over 1 MΩ", "≥1 MΩ", "~3 Hz",
    "BWC-02", "bw c 02", "IRF840", "irf8", "BW-16", "R22", "2u2", "100 nF", "OL", "swings 9..23 V", "−12 V", "class:",
    "\"no power\"", "'", "’", "-", "_", ":", ".", ",", "..", "\n", "\t", "\u00a0", "\u2009", "½", "²", "Ω", "Ω", "K",
    "ﬁlter", "Ａ１", "é", "e\u0301", "ß", "İ", "ı", "ς", "𝟜k𝟟", "😀", "漢字", "ｶﾞ", "\u200d", "\ufeff", "�", "0", "12",
    "1e3", "10:30", "5 × 20 mm", "°C", "105 °C", "100 µF 35 V", "/", "(", ")", "%", "#", "&", "=", "+", "?", "\\",
)  # fmt: skip


def chance_strings(count: int, seed: int) -> list[str]:
    """``count`` strings: of bench talk, of any Unicode but surrogates (which no text in a file can hold), of both."""
    chance = random.Random(seed)

    def character() -> str:
        width = chance.choice((0x80, 0x80, 0x250, 0x2400, 0x10000, 0x110000))
        while True:
            code = chance.randrange(width)
            if not 0xD800 <= code <= 0xDFFF:
                return chr(code)

    def string() -> str:
        kind = chance.randrange(3)
        parts = [
            character() if kind == 1 or (kind == 2 and chance.random() < 0.4) else chance.choice(PIECES)
            for _ in range(chance.randint(0, 12))
        ]
        return chance.choice(("", " ")).join(parts)

    return [string() for _ in range(count)]
