"""JSON Schema (2020-12) of the files a person writes, so that editors complete and check them.

The three files in schemas/ are made from the models by `python -m boxfit.files.schema`; make them anew
whenever a key changes. Rules between keys (a low below its high) only the reader knows.
"""

import json
from importlib.resources import files
from pathlib import Path

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from boxfit.files.said import SaidFile
from boxfit.files.said_bay import SaidBay
from boxfit.files.said_car import SaidCar
from boxfit.files.said_module import SaidModule

FOLDER = "schemas"
"""Where the schemas lie: in this package, and in a folder that `boxfit new` made."""
KINDS: dict[str, tuple[type[SaidFile], str]] = {
    "car": (SaidCar, "car.toml of a car's folder"),
    "bay": (SaidBay, "a bay's file"),
    "module": (SaidModule, "a module's file"),
}
"""The kinds of file: what they must say, and their title."""
_SCHEMA = "https://json-schema.org/draft/2020-12/schema"
"""The name of the standard's edition (JSON Schema 2020-12, section 8.1.1)."""


class _Plain(GenerateJsonSchema):
    """Schemas as a TOML file asks for them: no null, no titles, only defaults that can be written."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        """What may be left out is never written as null."""
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """A default that is a table says no more than its own keys do."""
        default = schema.get("default")
        if isinstance(default, bool | int | float | str) or (isinstance(default, list) and default):
            return super().default_schema(schema)
        return self.generate_inner(schema["schema"])

    def tagged_union_schema(self, schema: core_schema.TaggedUnionSchema) -> JsonSchemaValue:
        """Tables of several kinds, without the word for it that is not of the standard."""
        return {key: value for key, value in super().tagged_union_schema(schema).items() if key == "oneOf"}

    def field_title_should_be_set(self, _schema: object) -> bool:
        """A key is its own title."""
        return False


def schema_of(kind: str) -> JsonSchemaValue:
    """The schema of the "car", "bay" or "module" file, as a table."""
    model, title = KINDS[kind]
    made = model.model_json_schema(by_alias=True, schema_generator=_Plain)
    for table in (made, *made["$defs"].values()):
        table.pop("title", None)
        table.pop("description", None)  # of the model, meant for who changes it; keys have their own
    return {"$schema": _SCHEMA, "title": title, **made}


def schema_text(kind: str) -> str:
    """The schema as it is written to its file."""
    return json.dumps(schema_of(kind), indent=1, ensure_ascii=False) + "\n"


def shipped(kind: str) -> str:
    """The schema's text as the package brings it."""
    return files("boxfit.files").joinpath(FOLDER, f"{kind}.json").read_text(encoding="utf-8")


if __name__ == "__main__":
    for word in KINDS:
        Path(__file__).with_name(FOLDER).joinpath(f"{word}.json").write_text(
            schema_text(word), encoding="utf-8"
        )
