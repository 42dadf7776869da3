"""Rule: a file that is not at entries/<class>/<slug>.yaml."""

from benchlore.check.rule import ReadingRule


class BadFileName(ReadingRule):
    """A file that is not named and placed as an entry.

    What
        Entries are found at entries/<class>/<slug>.yaml. The slug is lower-case words with hyphens, from 3 to 100
        characters: relay-chatters-bw-12.
    Why
        The slug is the entry's id and its address on the site. A name in another form is not found, or gives an
        address that breaks when it is sent to somebody.
    Bad
        # file: entries/dehumidifier/Relay_Chatters.yaml
        title: Compressor relay chatters under load; dropper capacitor C1 had lost its value
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        title: Compressor relay chatters under load; dropper capacitor C1 had lost its value
    How to mend
        Rename the file. If the old name was published, add it under formerly, where it has the form of a slug.
    """

    code = "FIL003"
    name = "bad-file-name"
    severity = "error"
    kinds = frozenset({"bad-file-name"})
