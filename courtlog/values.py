"""Values out of files (cards, settings): dataclasses whose fields say what they may hold.

A value that is plainly right is taken at once. Pydantic judges all others, and says what is wrong
with them. It costs 40 ms and 12 MB, so it is loaded only then.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, asdict, dataclass, fields, is_dataclass
from enum import Enum, EnumType
from functools import cache
from typing import (
    TYPE_CHECKING,
    Annotated,
    Any,
    Literal,
    TypeVar,
    cast,
    get_args,
    get_origin,
    get_type_hints,
)

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, TypeAdapter
    from pydantic_core import CoreSchema

T = TypeVar("T")

Read = Callable[[Any], Any]
"""A value as its field has it. Raises _Doubt where it is not plainly right."""

NOTHING_ELSE = {"extra": "forbid"}
"""For a dataclass's `__pydantic_config__`: it has no other fields than these."""

_DOUBTFUL = re.compile(r"[\x1c-\x1f\ud800-\udfff]")
"""Characters that only Python takes for white space, and halves of a character."""


class WrongValueError(ValueError):
    """What pydantic found wrong: the path to each value, and a sentence."""

    def __init__(self, faults: list[tuple[tuple[int | str, ...], str]]) -> None:
        path, sentence = faults[0]
        super().__init__(": ".join(filter(None, (".".join(map(str, path)), sentence))))
        self.faults = faults


class _Doubt(Exception):  # noqa: N818 - nothing need be wrong
    """Not plainly right."""


@dataclass(frozen=True)
class TextRule:
    """A text of at most `longest` characters; an `empty` one is not stripped and may be ''."""

    longest: int
    pattern: str | None = None
    empty: bool = False

    def read(self, value: Any) -> str:
        """The text as a field has it. Raises _Doubt."""
        if type(value) is not str or _DOUBTFUL.search(value):
            raise _Doubt
        text = value if self.empty else value.strip()
        if not (self.empty or text) or len(text) > self.longest:
            raise _Doubt
        if self.pattern is not None and not re.fullmatch(self.pattern, text):
            raise _Doubt
        return text

    def __get_pydantic_core_schema__(self, kind: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        schema: CoreSchema = _core_schema().str_schema(
            max_length=self.longest,
            min_length=None if self.empty else 1,
            strip_whitespace=not self.empty,
            pattern=None if self.pattern is None else f"^(?:{self.pattern})$",
        )
        return schema


@dataclass(frozen=True)
class NumberRule:
    """A whole number in these bounds; a `typed` one may come as text."""

    least: int
    most: int | None = None
    typed: bool = False

    def read(self, value: Any) -> int:
        """The number. Raises _Doubt."""
        if type(value) is not int or not self.least <= value <= (self.most or value):
            raise _Doubt
        return value

    def __get_pydantic_core_schema__(self, kind: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        schema: CoreSchema = _core_schema().int_schema(
            ge=self.least, le=self.most, strict=not self.typed
        )
        return schema


@dataclass(frozen=True)
class LengthRule:
    """A list whose length lies between these."""

    least: int = 0
    most: int | None = None

    def read(self, value: Any) -> list[Any] | tuple[Any, ...]:
        """The list as it is. Raises _Doubt."""
        if type(value) not in (list, tuple):
            raise _Doubt
        if not self.least <= len(value) <= (self.most or len(value)):
            raise _Doubt
        return cast("list[Any] | tuple[Any, ...]", value)

    def __get_pydantic_core_schema__(self, kind: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        (item, _) = get_args(kind)
        schema: CoreSchema = _core_schema().tuple_variable_schema(
            handler.generate_schema(item), min_length=self.least or None, max_length=self.most
        )
        return schema


def take(kind: type[T], table: object) -> T:
    """A dataclass from a table as JSON and TOML have it. Raises WrongValueError."""
    try:
        return cast(T, _reader(cast(Any, kind))(table))
    except _Doubt:
        return cast(T, _judged(kind, table))


def take_json(kind: type[T], text: str | bytes) -> T:
    """The same from the text of a table. Raises WrongValueError."""
    try:
        table = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise WrongValueError([((), f"it is no JSON ({error})")]) from error
    return take(kind, table)


def json_of(value: Any) -> str:
    """A dataclass as JSON without spaces, every character as it is."""
    return json.dumps(asdict(value), ensure_ascii=False, separators=(",", ":"))


def jsonable(value: object) -> Any:
    """A dataclass as tables, lists, texts, numbers and nothing else."""
    kind: Any = type(value)
    return _judge(kind).dump_python(value, mode="json")


def _judged(kind: Any, table: object) -> Any:
    from pydantic import ValidationError  # loaded as in `_core_schema`

    try:
        return _judge(kind).validate_python(table)
    except ValidationError as error:
        faults = error.errors(include_url=False, include_context=False, include_input=False)
        raise WrongValueError([(fault["loc"], fault["msg"]) for fault in faults]) from error


def _core_schema() -> Any:
    from pydantic_core import core_schema  # 0.04 s and 10 MB: only doubtful values need it

    return core_schema


@cache
def _judge(kind: Any) -> TypeAdapter[Any]:
    from pydantic import TypeAdapter  # loaded as in `_core_schema`

    return TypeAdapter(kind)


@cache
def _reader(hint: Any) -> Read:
    """How to read a value of that type."""
    if isinstance(hint, EnumType):
        return _among({word.value: word for word in list[Enum](hint)})
    if isinstance(hint, type) and is_dataclass(hint):
        return _of_fields(hint)
    match get_origin(hint), get_args(hint):
        case origin, (base, *marks) if origin is Annotated:
            rules = (mark for mark in marks if isinstance(mark, TextRule | NumberRule | LengthRule))
            return _one_after_the_other(next(rules, None), _reader(base))
        case origin, words if origin is Literal:
            return _among({word: word for word in words})
        case origin, (item, _) if origin is tuple:
            return lambda values: tuple(map(_reader(item), LengthRule().read(values)))
    return lambda value: value if type(value) is hint else _doubt()


def _doubt() -> Any:
    raise _Doubt


def _among(words: Mapping[str, Any]) -> Read:
    return lambda value: words[value] if type(value) is str and value in words else _doubt()


def _one_after_the_other(rule: TextRule | NumberRule | LengthRule | None, then: Read) -> Read:
    return then if rule is None else lambda value: then(rule.read(value))


def _of_fields(kind: type) -> Read:
    hints = get_type_hints(kind, include_extras=True)
    readers = {field.name: _reader(hints[field.name]) for field in fields(kind)}
    needed = {field.name for field in fields(kind) if field.default is MISSING}

    def read(table: Any) -> Any:
        if type(table) is not dict or not needed <= table.keys() <= readers.keys():
            raise _Doubt
        return kind(**{name: readers[name](value) for name, value in table.items()})

    return read
