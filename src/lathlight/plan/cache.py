"""A memo of stage results, keyed by the content of what each stage was given.

Decides when two inputs are the same: when their canonical bytes are, their workings left aside. So a comment in the
project file, or an edit of a light, re-cuts no timber. Which stages exist and what each needs is left to
``lathlight.plan.stages``.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from collections import Counter, OrderedDict
from collections.abc import Callable, Mapping, Set
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from hashlib import blake2b
from operator import attrgetter
from typing import Any, ParamSpec, TypeVar, cast

from pydantic import BaseModel

from lathlight.carpentry import BuiltWall
from lathlight.catalog import Adhesive, Bracket, Fastener, Lumber, Paint, Profile, Sheet, Weight

P = ParamSpec("P")
R = TypeVar("R")

ROWS: tuple[type[Any], ...] = (Adhesive, Bracket, Fastener, Lumber, Paint, Profile, Sheet, Weight)
SHARED: tuple[type[Any], ...] = (*ROWS, BuiltWall)  # large values that many stages, or many edits, are given again
KEPT_SHARED = 4096  # digests of them kept at most; a project uses dozens of rows
KEPT_RESULTS = 50_000  # a thousand walls, some ten stages each, several edits deep
_PLAIN = frozenset((str, int, float, bool, type(None), bytes))  # their repr is exact and says their type
_WORKING = re.compile(r"\bWorking\b")  # the annotation of `why`, and of mappings of workings

_attributes: dict[type[Any], Callable[[Any], tuple[Any, ...]]] = {}
_shared: dict[int, tuple[object, str]] = {}  # by identity; the value is held, so that its identity stays its own


class Memo:
    """Results of stages by their inputs' content; forgets the ones used longest ago.

    For one thread at a time. A stage that raises leaves nothing behind.
    """

    def __init__(self, *, size: int = KEPT_RESULTS) -> None:
        self._results: OrderedDict[bytes, Any] = OrderedDict()
        self._size = size
        self.hits: Counter[str] = Counter()
        self.runs: Counter[str] = Counter()

    def run(self, stage: str, function: Callable[P, R], /, *inputs: P.args, **named: P.kwargs) -> R:
        """Return ``function(*inputs, **named)``, from memory where the same inputs were given before.

        Parameters
        ----------
        stage
            The stage's name: part of the key, and what hits and runs are counted under.
        function
            A pure function; not part of the key.

        Raises
        ------
        TypeError
            An input has no canonical bytes.
        """
        key = key_of(stage, inputs, named)
        if key in self._results:
            self.hits[stage] += 1
            self._results.move_to_end(key)
            return self._results[key]
        self.runs[stage] += 1
        result = function(*inputs, **named)
        self._results[key] = result
        if len(self._results) > self._size:
            self._results.popitem(last=False)
        return result

    def __len__(self) -> int:
        return len(self._results)


def key_of(stage: str, inputs: tuple[object, ...], named: Mapping[str, object]) -> bytes:
    """Return the key of a stage and its inputs: 16 bytes."""
    return blake2b(canonical_bytes((stage, inputs, named)), digest_size=16).digest()


def canonical_bytes(value: object) -> bytes:
    """Return bytes that are equal exactly when two values are the same but for their workings.

    Takes frozen dataclasses, tables of the project file, tuples, lists, mappings, sets, enums, dates, decimals,
    fractions, strings, numbers, None. Mappings and sets count without their order.

    Examples
    --------
    >>> canonical_bytes({"b": 1.5, "a": (True, None)}) == canonical_bytes({"a": (True, None), "b": 1.5})
    True
    >>> canonical_bytes(1) == canonical_bytes(1.0)
    False
    """
    return repr(_plain(value)).encode("utf-8", "surrogatepass")


def _plain(value: Any) -> object:
    """Return the value as nested tuples of plain values, whose repr says everything about them."""
    kind = cast("type[Any]", type(value))
    if kind in _PLAIN:
        return value
    if kind is tuple or kind is list:
        return tuple([each if type(each) in _PLAIN else _plain(each) for each in value])
    if kind in SHARED:
        return _digest(value)
    read = _attributes.get(kind) or _learn(kind)
    if read is not None:
        return kind.__qualname__, *[each if type(each) in _PLAIN else _plain(each) for each in read(value)]
    return _plain_rarely(value)


def _plain_rarely(value: Any) -> object:
    match value:
        case Enum():
            return type(value).__qualname__, value.name
        case Mapping():
            pairs: list[tuple[object, object]] = [(_plain(key), _plain(each)) for key, each in value.items()]  # pyright: ignore[reportUnknownVariableType, reportUnknownArgumentType]  # anything may be in it
            return "mapping", *sorted(pairs, key=repr)
        case Set():
            return "set", *sorted((_plain(each) for each in value), key=repr)  # pyright: ignore[reportUnknownVariableType, reportUnknownArgumentType]  # anything may be in it
        case Decimal() | Fraction() | dt.date():
            return type(value).__qualname__, str(value)
        case _:
            message = f"a {type(value).__qualname__} has no canonical bytes, so no stage can be remembered by it"
            raise TypeError(message)


def _learn(kind: type[Any]) -> Callable[[Any], tuple[Any, ...]] | None:
    """Return what reads all fields of a class that count, remembered by class; None where it has no fields."""
    names = _counting_fields(kind)
    if names is None:
        return None
    read: Callable[[Any], tuple[Any, ...]]
    match names:
        case ():
            read = _nothing
        case (only,):
            read = _one(attrgetter(only))
        case _:
            read = attrgetter(*names)
    _attributes[kind] = read
    return read


def _counting_fields(kind: type[Any]) -> tuple[str, ...] | None:
    if dataclasses.is_dataclass(kind):
        fields = dataclasses.fields(kind)
        return tuple(field.name for field in fields if field.compare and not _WORKING.search(str(field.type)))
    if issubclass(kind, BaseModel):
        return tuple(kind.model_fields)
    return None


def _nothing(_value: object) -> tuple[Any, ...]:
    return ()


def _one(read: Callable[[Any], Any]) -> Callable[[Any], tuple[Any, ...]]:
    return lambda value: (read(value),)


def _digest(value: Any) -> str:
    """Return a short stand-in for a large value, worked out once: hundreds of walls share one catalogue row."""
    known = _shared.get(id(value))
    if known is not None:
        return known[1]
    kind = cast("type[Any]", type(value))
    names = [field.name for field in dataclasses.fields(value)] if kind in ROWS else _counting_fields(kind) or ()
    content = repr([kind.__qualname__, *[_plain(getattr(value, name)) for name in names]])
    digest = blake2b(content.encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()
    if len(_shared) >= KEPT_SHARED:
        _shared.clear()
    _shared[id(value)] = value, digest
    return digest
