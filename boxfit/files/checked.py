"""What pydantic found wrong, told with the file, the key, the value and what to do."""

from dataclasses import dataclass
from typing import TypeVar, get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from boxfit.files.examples import example_line
from boxfit.files.near import among, did_you_mean
from boxfit.files.problems import Parts, Problem, key_of
from boxfit.files.said import Said, SaidFile
from boxfit.files.shown import shown

_RULES = {
    "missing": "is missing",
    "union_tag_not_found": "is missing",
    "extra_forbidden": "is not a known key",
    "list_type": "must be a list",
    "bool_type": "must be true or false, without quotes",
    "model_type": "must be a table",
    "model_attributes_type": "must be a table",
}
_WITHOUT_VALUE = ("missing", "union_tag_not_found", "extra_forbidden")

FileModel = TypeVar("FileModel", bound=SaidFile)


def checked(
    model: type[FileModel], raw: dict[str, object], file: str, problems: list[Problem]
) -> FileModel | None:
    """The tables as the model has them; None, and `problems` longer, where they are not as they must be."""
    try:
        return model.model_validate(raw)
    except ValidationError as error:
        problems.extend(_problem(detail, model, file) for detail in error.errors(include_url=False))
        return None


@dataclass(frozen=True)
class _Spot:
    """Where an error is: the parts of its key, the keys known beside it, the kinds a table there may have."""

    parts: Parts
    known: tuple[str, ...]
    kinds: tuple[str, ...]


def _problem(detail: ErrorDetails, model: type[SaidFile], file: str) -> Problem:
    code, value = detail["type"], detail["input"]
    spot = _spot(model, detail["loc"])
    parts = (*spot.parts, "kind") if code.startswith("union_tag") else spot.parts
    told = detail.get("ctx", {}) if code == "told" else {}
    rule = told.get("rule") or _RULES.get(code, detail["msg"])
    remedy = told.get("remedy")
    if code == "union_tag_invalid":
        value = value["kind"]
        rule = f"must be one of {', '.join(shown(kind) for kind in spot.kinds)}"
        remedy = did_you_mean(value, spot.kinds)
    elif code == "extra_forbidden":
        remedy = among(parts[-1], spot.known)
    if not remedy:
        remedy = example_line(model.samples, tuple(part for part in parts if isinstance(part, str)))
    return Problem(file, key_of(parts), rule, None if code in _WITHOUT_VALUE else shown(value), remedy)


def _spot(model: type[Said], place: Parts) -> _Spot:
    """Follows pydantic's way to an error; where a table may be of several kinds that way names the kind."""
    here: tuple[type[Said], ...] = (model,)
    holder = here
    parts: list[str | int] = []
    for part in place:
        if isinstance(part, str) and len(here) > 1:
            here = tuple(table for table in here if part in _kinds(table))
            continue
        parts.append(part)
        if isinstance(part, str):
            holder, here = here, tuple(table for each in here for table in _tables_under(each, part))
    known = tuple(word for table in holder[:1] for word in _keys(table))
    return _Spot(tuple(parts), known, tuple(kind for table in here for kind in _kinds(table)))


def _keys(table: type[Said]) -> dict[str, object]:
    return {field.alias or name: field.annotation for name, field in table.model_fields.items()}


def _kinds(table: type[Said]) -> tuple[str, ...]:
    """The words of the table's `kind`, none where it has no such key."""
    return get_args(_keys(table).get("kind"))


def _tables_under(table: type[Said], key: str) -> tuple[type[Said], ...]:
    return tables_in(_keys(table).get(key))


def tables_in(annotation: object) -> tuple[type[Said], ...]:
    """Every table that a value so annotated may be, through lists and choices."""
    if isinstance(annotation, type) and issubclass(annotation, Said):
        return (annotation,)
    return tuple(table for part in get_args(annotation) for table in tables_in(part))
