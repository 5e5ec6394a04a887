"""`NamedTuple` as `typing` has it and `regex` as `re.compile`, at a tenth of their price: start-up is part
of the product.

`typing` compiles every annotation of every class, and a constructor, while the class is made: a fifth of
an `import numpy` for the hundred classes that a command loads. Here the constructor is compiled when it
is called often, and annotations stay the text that they are. Nor is a pattern compiled before it is asked:
those for what a hang list might say are a tenth of an `import numpy`, and most lists say little of it. Type
checkers are given the originals.
"""

TYPE_CHECKING = False  # a type checker takes it for True; `typing` itself would cost time

if TYPE_CHECKING:
    import re
    from typing import NamedTuple as NamedTuple

    regex = re.compile
else:
    import re
    from collections import _tuplegetter

    class regex:  # noqa: N801
        """A pattern that is compiled when it is first asked for anything."""

        def __init__(self, text, flags=0):
            self.text, self.flags_given = text, flags

        def __getattr__(self, name):
            made = re.compile(self.text, self.flags_given)
            for each in (
                "search",
                "match",
                "fullmatch",
                "sub",
                "subn",
                "findall",
                "finditer",
                "groups",
            ):
                setattr(self, each, getattr(made, each))
            return getattr(made, name)

    OFTEN = 30  # instances of one class that take as long as compiling its constructor
    _made = {}  # of each class without one: how many there are

    def _constructed(cls, /, *values, **named):
        """An instance, by the constructor that is compiled when it is called often, or wrongly."""
        own = next(base for base in cls.__mro__ if "_field_defaults" in base.__dict__)
        fields, defaults = own._fields, own._field_defaults
        _made[own] = _made.get(own, 0) + 1
        if _made[own] < OFTEN:
            left = fields[len(values) :]
            whole = {**defaults, **named}
            if len(values) <= len(fields) and named.keys() <= set(left) <= whole.keys():
                return tuple.__new__(cls, (*values, *[whole[field] for field in left]))
        fields = ", ".join(fields)
        text = f"lambda _cls, {fields}: _new(_cls, ({fields}{',' * bool(fields)}))"
        made = eval(text, {"_new": tuple.__new__, "__name__": own.__module__})
        made.__defaults__ = tuple(defaults.values()) or None
        made.__name__, made.__qualname__ = "__new__", f"{own.__qualname__}.__new__"
        own.__new__ = staticmethod(made)
        return made(cls, *values, **named)

    class _Named(type):
        """Makes a class of its annotations: a field for each, by position and by name."""

        def __new__(meta, name, bases, space):
            if bases[0] is tuple or hasattr(bases[0], "_fields"):  # `NamedTuple`, or made of one
                return type.__new__(meta, name, bases, space)
            fields = tuple(space.get("__annotations__", ()))
            defaults = {field: space[field] for field in fields if field in space}
            if fields[len(fields) - len(defaults) :] != tuple(defaults):
                raise TypeError(f"{name}: fields with a default stand last")
            space |= {field: _tuplegetter(k, "") for k, field in enumerate(fields)}
            space |= {"_fields": fields, "_field_defaults": defaults, "__match_args__": fields}
            return type.__new__(
                meta, name, bases, {**space, "__slots__": (), "__new__": _constructed}
            )

    class NamedTuple(tuple, metaclass=_Named):
        """A tuple whose places have names."""

        __slots__ = ()

        @classmethod
        def _make(cls, values):
            """An instance of as many values as there are fields."""
            made = tuple.__new__(cls, values)
            if len(made) != len(cls._fields):
                raise TypeError(f"Expected {len(cls._fields)} arguments, got {len(made)}")
            return made

        def _replace(self, /, **named):
            """The same with other values under some names."""
            made = self._make(map(named.pop, self._fields, self))
            if named:
                raise ValueError(f"Got unexpected field names: {list(named)!r}")
            return made

        def _asdict(self):
            """The values by their names."""
            return dict(zip(self._fields, self, strict=True))

        def __repr__(self):
            told = (f"{name}={value!r}" for name, value in self._asdict().items())
            return f"{type(self).__name__}({', '.join(told)})"

        def __getnewargs__(self):
            """What a copy or a pickle is made from."""
            return tuple(self)
