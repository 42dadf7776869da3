"""Rule: an anchor, an alias, a merge key or a tag."""

from benchlore.check.rule import ReadingRule


class YamlReference(ReadingRule):
    """An anchor, an alias, a merge key or a tag.

    What
        A value starts with & or * (anchor, alias) or with ! (tag), or a key is << (merge).
    Why
        References can make a small file unfold into an enormous one, and hide from a reader what is said. An entry
        says everything in full.
    Bad
        parts:
          - &c1 {ref: C1, use: fitted}
    Good
        parts:
          - {ref: C1, use: fitted}
    How to mend
        Write the value out. A text that really starts with one of these signs goes in quotes.
    """

    code = "RDG007"
    name = "yaml-reference"
    severity = "error"
    kinds = frozenset({"alias", "tag", "merge-key"})
