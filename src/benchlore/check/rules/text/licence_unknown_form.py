"""Rule: a licence that is no SPDX expression."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.mends.likeness import surely
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import one_of
from benchlore.terms.nearest import nearest

_CONTENT = (
    "CC0-1.0", "CC-BY-4.0", "CC-BY-SA-4.0", "CC-BY-NC-4.0", "CC-BY-NC-SA-4.0", "CC-BY-ND-4.0", "CC-BY-NC-ND-4.0",
    "CC-BY-3.0", "CC-BY-SA-3.0", "CC-BY-NC-3.0", "CC-BY-NC-SA-3.0", "CC-BY-2.0", "CC-BY-SA-2.0", "CC-BY-SA-2.5",
    "CC-PDDC", "PDDL-1.0", "ODbL-1.0", "ODC-By-1.0", "GFDL-1.3-only", "GFDL-1.3-or-later", "GFDL-1.2-only",
    "GFDL-1.2-or-later", "FSFAP", "MIT", "MIT-0", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "ISC",
    "Unlicense", "WTFPL", "OGL-UK-3.0", "etalab-2.0", "DL-DE-BY-2.0", "CDLA-Permissive-2.0", "CDLA-Sharing-1.0",
    "GPL-2.0-only", "GPL-2.0-or-later", "GPL-3.0-only", "GPL-3.0-or-later", "LGPL-3.0-or-later", "MPL-2.0",
    "CERN-OHL-P-2.0", "CERN-OHL-W-2.0", "CERN-OHL-S-2.0",
)  # fmt: skip
"""Identifiers of the SPDX licence list under which texts, data and drawings are commonly given; not the whole list."""
_OWN = re.compile(r"(DocumentRef-[A-Za-z0-9.-]+:)?LicenseRef-[A-Za-z0-9.-]+")


class LicenceUnknownForm(EntryRule):
    """A licence that is not understood.

    What
        The licence is no SPDX expression, or names a licence that texts are hardly given under.
    Why
        Others may use an entry only as far as its licence says; a site that mixes entries has to know.
    Bad
        licence: Creative Commons
    Good
        licence: CC-BY-SA-4.0
    How to mend
        Take the identifier from the SPDX licence list, such as CC-BY-SA-4.0 or CC0-1.0; join two by OR or AND. A
        licence of your own is LicenseRef-name. Left out, the shop's default holds.
    """

    code = "TXT003"
    name = "licence-unknown-form"
    severity = "warning"
    names_answer = True

    def check(self, subject: Subject) -> Iterator[Observation]:
        written = subject.entry.licence
        if written is None:
            return
        known = {name.lower() for name in _CONTENT}
        strange = [name for name in _names(written) if name.lower() not in known and not _OWN.fullmatch(name)]
        if strange:
            close = nearest(strange[0], _CONTENT)
            hint = f"Did you mean {one_of(close)}?" if close else "Take it from the SPDX licence list: CC-BY-SA-4.0 ..."
            yield Observation(
                ("licence",), f"“{strange[0]}” is no licence known here", hint, instead=surely(written, _CONTENT)
            )


def _names(expression: str) -> list[str]:
    """The licences an SPDX expression names; the whole text as one when it has not the form of an expression."""
    tokens = expression.replace("(", " ( ").replace(")", " ) ").split()
    names, wants_name, depth = [], True, 0
    for token in tokens:
        if token == "(" and wants_name:
            depth += 1
        elif token == ")" and not wants_name and depth:
            depth -= 1
        elif token in ("AND", "OR") and not wants_name:
            wants_name = True
        elif wants_name and re.fullmatch(r"[A-Za-z0-9.:-]+\+?", token):
            names.append(token.removesuffix("+"))
            wants_name = False
        else:
            return [expression]
    return [expression] if wants_name or depth else names
