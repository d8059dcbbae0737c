"""`dataclass`, as the standard library has it: for the frozen records of this house made, and filled, sooner.

The standard library writes six functions for each frozen class as text and compiles them, 0.5 ms a class: with some 250
classes an eighth of a second whenever the program starts. Here only `__init__` is compiled; the others are shared, and
work from the names of the fields. Fields, `replace`, `fields` and `field` stay the standard library's own.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from reprlib import recursive_repr
from types import MemberDescriptorType
from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(cls=None, /, **options):
        """The standard library's decorator, with its options."""

        def made(cls):
            others = {name: value for name, value in options.items() if name != "frozen"}
            return _frozen(cls, **others) if options.get("frozen") else dataclasses.dataclass(cls, **others)

        return made if cls is None else made(cls)


_MISSING = object()


def _frozen(cls: type, *, eq: bool = True, **options: bool) -> Any:
    own = {name for name in ("__init__", "__repr__", "__eq__", "__hash__") if cls.__dict__.get(name) is not None}
    cls.__doc__ = cls.__doc__ or cls.__name__  # else the standard library would write its signature there
    made: Any = dataclasses.dataclass(init=False, repr=False, eq=False, **options)(cls)
    fields = dataclasses.fields(made)
    shared: dict[str, Any] = {"__repr__": _repr_of(tuple(field.name for field in fields if field.repr))}
    if eq:
        told = tuple(field.name for field in fields if (field.compare if field.hash is None else field.hash))
        values = _values_of(tuple(field.name for field in fields if field.compare))
        shared |= {"__eq__": _eq_of(values), "__hash__": _hash_of(_values_of(told))}
    shared |= {"__init__": _init_of(made, fields), "__setattr__": _set, "__delattr__": _delete}
    if options.get("slots"):
        names = tuple(field.name for field in fields)
        shared["__getstate__"] = lambda self: [getattr(self, name) for name in names]
        shared["__setstate__"] = lambda self, state: _fill(self, names, state)
    for name, function in shared.items():
        if name not in own:
            setattr(made, name, function)
    return made


def _set(self: object, name: str, value: object) -> NoReturn:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete(self: object, name: str) -> NoReturn:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _fill(self: object, names: tuple[str, ...], state: list[Any]) -> None:
    for name, value in zip(names, state, strict=True):
        object.__setattr__(self, name, value)


def _values_of(names: tuple[str, ...]) -> Callable[[object], tuple[Any, ...]]:
    if len(names) > 1:
        return attrgetter(*names)
    return lambda self: tuple(getattr(self, name) for name in names)


def _eq_of(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object, object], bool]:
    def eq(self: object, other: object) -> bool:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    return eq


def _hash_of(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object], int]:
    return lambda self: hash(values(self))


def _repr_of(names: tuple[str, ...]) -> Callable[[object], str]:
    @recursive_repr()
    def told(self: object) -> str:
        return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in names)})"

    return told


def _init_of(made: type, fields: tuple[dataclasses.Field[Any], ...]) -> Callable[..., None]:
    """`__init__`, which puts each value into its slot, past the lock. Its own names end as no field's does."""
    known: dict[str, Any] = {"missing_": _MISSING, "put_": object.__setattr__}
    by_place, by_name, body = ["self"], list[str](), list[str]()
    for number, field in enumerate(fields):
        name, value, default = field.name, field.name, ""
        if field.default is not dataclasses.MISSING:
            known[f"default{number}_"], default = field.default, f"=default{number}_"
            value = name if field.init else f"default{number}_"
        elif field.default_factory is not dataclasses.MISSING:
            known[f"default{number}_"], default = field.default_factory, "=missing_"
            value = f"default{number}_() if {name} is missing_ else {name}" if field.init else f"default{number}_()"
        if field.init:
            (by_name if field.kw_only else by_place).append(name + default)
        elif not default:
            continue
        slot = getattr(made, name, None)
        if isinstance(slot, MemberDescriptorType):
            known[f"slot{number}_"] = slot.__set__
            body.append(f"slot{number}_(self, {value})")
        else:
            body.append(f"put_(self, {name!r}, {value})")
    if hasattr(made, "__post_init__"):
        body.append("self.__post_init__()")
    given = ", ".join([*by_place, *(["*", *by_name] if by_name else [])])
    exec(f"def __init__({given}):\n " + "\n ".join(body or ["pass"]), known)
    init: Callable[..., None] = known["__init__"]
    return init
