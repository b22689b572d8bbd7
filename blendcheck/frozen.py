"""Frozen records whose classes cost next to nothing to make.

``@dataclass(frozen=True)`` writes six methods for each class as text and compiles
them: 0.3 ms a class, and a fifth of the time of a check, which meets a hundred. Here
they are written once and inherited. To all else such a class is a dataclass:
``fields``, ``replace`` and ``asdict`` work on it. Its ``__init__`` is slower than a
compiled one, so what is made by the thousand is not one: a range and a mass have the
decorator, a figure and a step are named tuples.
"""

from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, fields
from typing import Any, ClassVar, NoReturn, dataclass_transform

__all__ = ["Frozen"]


@dataclass_transform(frozen_default=True)
class Frozen:
    """A record of named values; two are equal if class and values are.

    Fields are written as in a dataclass, with plain defaults only. A class made with
    ``base=True`` is no record: it holds what other classes share.

    Raises
    ------
    TypeError
        If a value is missing, given twice, or of no field.
    FrozenInstanceError
        If a value is changed later.

    Examples
    --------
    >>> class Pair(Frozen):
    ...     left: int
    ...     right: int = 2
    >>> Pair(1)
    Pair(left=1, right=2)
    >>> Pair(1) == Pair(right=2, left=1)
    True
    """

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    _names: ClassVar[tuple[str, ...]] = ()
    _defaults: ClassVar[dict[str, Any]] = {}

    def __init_subclass__(cls, *, base: bool = False) -> None:
        super().__init_subclass__()
        if base:
            return
        dataclass(init=False, repr=False, eq=False)(cls)
        cls._names = tuple(one.name for one in fields(cls))
        cls._defaults = {
            one.name: one.default for one in fields(cls) if one.default is not MISSING
        }

    def __init__(self, *values: Any, **named: Any) -> None:  # noqa: ANN401
        names = self._names
        given = dict(zip(names, values, strict=False))
        if named or len(values) != len(names):
            given = {**self._defaults, **given, **named}
            fits = len(values) <= len(names) == len(given)
            fits = fits and all(name in given for name in names)
            if not fits or any(name in named for name in names[: len(values)]):
                takes = f"{type(self).__name__} takes {', '.join(names)}, each once"
                raise TypeError(f"{takes}: {len(values)} values, {', '.join(named)}")
        self.__dict__.update(given)

    def _values(self) -> tuple[Any, ...]:
        held = self.__dict__
        return tuple([held[name] for name in self._names])

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        return self._values() == other._values()

    def __hash__(self) -> int:
        return hash(self._values())

    def __repr__(self) -> str:
        shown = (f"{name}={self.__dict__[name]!r}" for name in self._names)
        return f"{type(self).__qualname__}({', '.join(shown)})"

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self, name: str) -> NoReturn:
        raise FrozenInstanceError(f"cannot delete field {name!r}")
