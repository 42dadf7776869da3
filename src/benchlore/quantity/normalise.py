"""Brings the many ways of typing the same sign down to one, before a quantity text is read."""

from __future__ import annotations

import unicodedata

# Characters that NFKC would spoil (fractions, look-alike degree signs) or leaves alone (minus signs, dots).
_BEFORE_NFKC = str.maketrans(
    {
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
        "⅓": " 1/3", "⅔": " 2/3",
        "º": "°", "˚": "°", "∼": "~", "≃": "~", "≅": "~", "⩽": "≤", "⩾": "≥", "≦": "≤", "≧": "≥",
        "−": "-", "‐": "-", "‑": "-", "‒": "–", "—": "–", "―": "–", "‥": "..", "⋯": "…", "∙": "·", "⋅": "·",
        "″": '"', "”": '"', "⁄": "/",
    }
)  # fmt: skip
_AFTER_NFKC = str.maketrans({"μ": "u", "Ω": "ohm", "≈": "~"})


def normalise(text: str) -> str:
    """The text with one sign for each meaning: ``u`` for micro, ``ohm`` for Ω, ``±``, ``≤``, ``≥``, single spaces.

    Unicode's NFKC maps U+00B5 to U+03BC, U+2126 to U+03A9, ㏀ to kΩ, ℃ to °C and no-break spaces to spaces, but
    leaves U+2212 (minus) alone and turns ½ into three characters, so those are mapped by hand.
    """
    if not text.isascii():
        text = unicodedata.normalize("NFKC", text.translate(_BEFORE_NFKC)).translate(_AFTER_NFKC)
    text = " ".join(text.split())
    if "+" in text or "=" in text:
        text = text.replace("+/-", "±").replace("+-", "±").replace("<=", "≤").replace(">=", "≥")
    return text
