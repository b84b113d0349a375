"""A mutant put into a module that is imported already: into one function, or into the module's values."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

PACKAGE = "saltledger"
OPTIMIZED = 0x1
"""CO_OPTIMIZED: set for the code of functions, not for that of classes and modules."""

Place = tuple[str, int]
"""A function: its file, and the first line of its code."""


@dataclass(frozen=True, slots=True)
class Change:
    """What a mutant changes. function: its outermost function before and after, None outside of any."""

    file: str
    text: str
    function: tuple[CodeType, CodeType] | None

    @property
    def place(self) -> Place | None:
        return None if self.function is None else (self.file, self.function[0].co_firstlineno)

    def put_in(self) -> bool:
        """Put it into the imported module; whether it could be."""
        if self.function is None:
            return _set_values(self.file, self.text)
        was, becomes = self.function
        for function in _functions():
            if _same_place(function.__code__, was):
                function.__code__ = becomes
        _set_values(self.file, self.text)  # what is worked out by it while the module is imported
        return True


def change_of(file: str, text: str) -> Change:
    """The change that makes a file's own text another."""
    return Change(file, text, changed_function(Path(file).read_text(encoding="utf-8"), text, file))


def _set_values(file: str, text: str) -> bool:
    """Give plain values of a module those that another text of it would have, wherever they were imported.

    False where no plain value differs: what was changed cannot be put in so.
    """
    module = next((each for each in _modules() if getattr(each, "__file__", None) == file), None)
    if module is None:
        return False
    made: dict[str, Any] = {"__name__": module.__name__, "__package__": module.__package__, "__file__": file}
    try:
        exec(compile(text, file, "exec", dont_inherit=True), made)
    except Exception:  # whatever it is, a run of its own will tell
        return False
    held = vars(module)
    changed = {
        name: value
        for name, value in made.items()
        if name in held and _is_plain(value) and _is_plain(held[name]) and held[name] != value
    }
    for name, value in changed.items():
        before = held[name]
        for each in _modules():
            if name in vars(each) and (vars(each)[name] is before or each is module):
                setattr(each, name, value)
    return bool(changed)


def _modules() -> list[ModuleType]:
    return [
        each for name, each in list(sys.modules.items()) if name.split(".")[0] in (PACKAGE, "tests") and each
    ]


def _is_plain(value: Any) -> bool:
    if isinstance(value, dict):
        return all(_is_plain(each) for pair in value.items() for each in pair)
    if isinstance(value, tuple | list | frozenset | set):
        return all(map(_is_plain, value))
    return value is None or isinstance(value, int | float | str | bytes)


def _functions() -> Iterator[FunctionType]:
    return (each for each in gc.get_objects() if type(each) is FunctionType)


def _same_place(code: CodeType, other: CodeType) -> bool:
    return (code.co_filename, code.co_firstlineno, code.co_name) == (
        other.co_filename,
        other.co_firstlineno,
        other.co_name,
    )


def changed_function(before: str, after: str, file: str) -> tuple[CodeType, CodeType] | None:
    """The outermost function in which two texts of a module differ, before and after.

    None where they differ outside of functions, or where the one could not take the other's place.
    """
    old, new = (compile(text, file, "exec", dont_inherit=True) for text in (before, after))
    if not _alike(old, new):
        return None
    differing = [(one, other) for one, other in _both(old, new) if _what(one) != _what(other)]
    if len(differing) != 1 or differing[0][0].co_freevars != differing[0][1].co_freevars:
        return None
    return differing[0]


def _both(old: CodeType, new: CodeType) -> Iterator[tuple[CodeType, CodeType]]:
    """The outermost functions of two modules, in pairs."""
    for one, other in zip(_within(old), _within(new), strict=True):
        if one.co_flags & OPTIMIZED:
            yield one, other
        else:
            yield from _both(one, other)


def _alike(old: CodeType, new: CodeType) -> bool:
    """Whether two modules differ, if at all, within functions alone."""
    if old.co_flags & OPTIMIZED:
        return True
    ones, others = _within(old), _within(new)
    own = (_without(old), old.co_names) == (_without(new), new.co_names) and len(ones) == len(others)
    return own and all(_alike(one, other) for one, other in zip(ones, others, strict=True))


def _within(code: CodeType) -> list[CodeType]:
    return [each for each in code.co_consts if isinstance(each, CodeType)]


def _without(code: CodeType) -> tuple[Any, ...]:
    return (
        code.co_name,
        code.co_code,
        *(repr(each) for each in code.co_consts if not isinstance(each, CodeType)),
    )


def _what(code: CodeType) -> tuple[Any, ...]:
    """What a function does, wherever its lines stand."""
    return (*_without(code), code.co_names, code.co_varnames, *(_what(each) for each in _within(code)))
