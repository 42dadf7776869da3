"""The JSON Schema of an entry, for editors: made from the model, its docstrings, and the vocabulary's terms.

Editors load YAML 1.2, where an unquoted number is a number: fields that take text take numbers too, as reading does.
"""

from __future__ import annotations

import ast
import inspect
import json
import os
import re
import tempfile
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

from benchlore.errors import BenchloreError
from benchlore.read import entry as entry_module
from benchlore.read import fields as fields_module
from benchlore.read.entry import FaultEntry
from benchlore.terms.model import KINDS, Term
from benchlore.terms.vocabulary import Vocabulary

DIALECT = "https://json-schema.org/draft/2020-12/schema"
SCHEMA_FILE = Path("schema") / "fault-entry.schema.json"
"""Where it lies in a knowledge base; an entry's first comment points there."""

Schema = dict[str, Any]


def fault_entry_schema(vocabulary: Vocabulary) -> Schema:
    """JSON Schema 2020-12 of a fault entry, with the ids of ``vocabulary`` as the choices of every term."""
    raw = FaultEntry.model_json_schema(by_alias=True)
    models = {**raw.pop("$defs"), FaultEntry.__name__: raw}
    definitions = {name: _mapping(name, schema) for name, schema in models.items()}
    top = definitions.pop(FaultEntry.__name__)
    top["title"] = "Fault entry"
    terms = {f"term-{kind}": _terms(kind, vocabulary) for kind in KINDS if kind in _kinds_used(models)}
    return {"$schema": DIALECT, **top, "$defs": dict(sorted({**definitions, **terms}.items()))}


def schema_text(vocabulary: Vocabulary) -> str:
    """The schema as the text of its file: the same bytes for the same model and vocabulary."""
    return json.dumps(fault_entry_schema(vocabulary), ensure_ascii=False, indent=1) + "\n"


def is_fresh(path: Path, vocabulary: Vocabulary) -> bool:
    """Whether ``path`` holds the schema that would be made now."""
    try:
        return path.read_text(encoding="utf-8") == schema_text(vocabulary)
    except (OSError, UnicodeDecodeError):
        return False


def write_schema(path: Path, vocabulary: Vocabulary) -> bool:
    """Write the schema to ``path``, all of it or nothing; False when it was fresh and nothing was written.

    Raises BenchloreError when it cannot be written.
    """
    if is_fresh(path, vocabulary):
        return False
    try:
        _write(path, schema_text(vocabulary))
    except OSError as error:
        raise BenchloreError(f"{path} cannot be written: {error.strerror or error}") from error
    return True


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    descriptor, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(descriptor, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


# Terms ------------------------------------------------------------------------------------------------------------


def _terms(kind: str, vocabulary: Vocabulary) -> Schema:
    """The ids of one kind, each with its label and definition, as editors show them."""
    terms = vocabulary.terms(kind)
    what = kind.replace("-", " ")
    schema: Schema = {"title": what.capitalize(), "description": f"A {what} of the vocabulary, by its id."}
    if not terms:
        return {**schema, "type": "string"}
    return {**schema, "enum": list(terms), "enumDescriptions": [_told(term) for term in terms.values()]}


def _told(term: Term) -> str:
    retired = f"Retired: use {term.replaced_by}. " if term.replaced_by else ""
    return f"{retired}{term.label}: {term.definition}"


def _kinds_used(schema: Any) -> set[str]:
    if isinstance(schema, dict):
        own = {str(schema["x-term-kind"])} if "x-term-kind" in schema else set()
        return own.union(*(_kinds_used(value) for value in schema.values()))
    if isinstance(schema, list):
        return set[str]().union(*(_kinds_used(item) for item in schema))
    return set()


# Mappings and their fields ------------------------------------------------------------------------------------------


def _mapping(name: str, raw: Schema) -> Schema:
    """The schema of one of the entry's mappings."""
    docs = _field_docs(name)
    required = raw.get("required", [])
    properties = {}
    for key, field in raw["properties"].items():
        schema = _value(field)
        if key not in required:
            schema = _or_nothing(schema)
        described: Schema = {"title": key.replace("_", " ").capitalize()}
        if key in docs:
            described["description"] = docs[key]
        properties[key] = {**described, **{k: v for k, v in schema.items() if k not in described}}
    mapping: Schema = {"title": _words(name), "description": raw["description"], "type": "object"}
    if required:
        mapping["required"] = required
    return {**mapping, "properties": properties, "additionalProperties": False}


def _value(raw: Schema) -> Schema:
    """The schema of a value, as an editor may load it."""
    if "x-term-kind" in raw:
        return {"$ref": f"#/$defs/term-{raw['x-term-kind']}"}
    if "$ref" in raw:
        return {"$ref": raw["$ref"]}
    if "anyOf" in raw:
        members = [_value(member) for member in raw["anyOf"] if member != {"type": "null"}]
        merged = members[0] if len(members) == 1 else {"anyOf": members}
        return _or_nothing(merged) if {"type": "null"} in raw["anyOf"] else merged
    schema = {key: value for key, value in raw.items() if key not in ("title", "default")}
    if "const" in schema:
        schema = {"enum": [schema["const"]]}
    if "enum" in schema:
        return {"enum": [form for choice in schema["enum"] for form in _forms(choice)]}
    if schema.get("type") == "array":
        schema["items"] = _value(schema["items"])
    elif schema.get("type") == "object":
        names = schema.pop("propertyNames", None)
        schema["additionalProperties"] = _value(schema["additionalProperties"])
        if names is not None:
            schema["propertyNames"] = _value(names)
    elif schema.get("type") == "string" and "format" not in schema:
        schema["type"] = ["string", "number", "boolean"]
    return schema


def _forms(choice: Any) -> list[Any]:
    """A choice as it is and as the number that YAML 1.2 makes of it."""
    return [choice, int(choice)] if isinstance(choice, str) and choice.isdecimal() else [choice]


def _or_nothing(schema: Schema) -> Schema:
    """The same, or left empty, which counts as left out."""
    if "enum" in schema:
        return {**schema, "enum": [*schema["enum"], *([] if None in schema["enum"] else [None])]}
    if "type" in schema:
        types = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
        return {**schema, "type": types if "null" in types else [*types, "null"]}
    members = schema.get("anyOf", [schema])
    return {"anyOf": members if {"type": "null"} in members else [*members, {"type": "null"}]}


def _words(name: str) -> str:
    """``SeenSymptom`` as ``Seen symptom``."""
    return re.sub(r"(?<!^)(?=[A-Z])", " ", name).capitalize()


# Docstrings -------------------------------------------------------------------------------------------------------


def _field_docs(model: str) -> dict[str, str]:
    """What the docstrings below a model's fields say, by key; those of the field's type where a field has none."""
    cls = getattr(entry_module, model)
    docs: dict[str, str] = {}
    for parent in reversed(cls.__mro__):
        docs |= _docs_of(inspect.getsourcefile(entry_module) or "").get(parent.__name__, {})
    types = _docs_of(inspect.getsourcefile(fields_module) or "").get("", {})
    for name, note in inspect.get_annotations(cls).items():
        said = types.get(str(note).split(" ")[0].removeprefix("Annotated[").rstrip(","))
        if said:
            docs.setdefault(name, said)
    aliases = {name: field.alias for name, field in cls.model_fields.items() if field.alias}
    return {aliases.get(name, name): text for name, text in docs.items()}


@cache
def _docs_of(file: str) -> dict[str, dict[str, str]]:
    """Docstrings below assignments: class name (empty for the module) to field name to text."""
    tree = ast.parse(Path(file).read_text(encoding="utf-8"))
    bodies = {"": tree.body, **{node.name: node.body for node in tree.body if isinstance(node, ast.ClassDef)}}
    docs: dict[str, dict[str, str]] = {}
    for owner, body in bodies.items():
        for above, below in pairwise(body):
            target = above.target if isinstance(above, ast.AnnAssign) else getattr(above, "targets", [None])[0]
            if (
                isinstance(target, ast.Name)
                and isinstance(below, ast.Expr)
                and isinstance(below.value, ast.Constant)
                and isinstance(below.value.value, str)
            ):
                docs.setdefault(owner, {})[target.id] = inspect.cleandoc(below.value.value)
    return docs
