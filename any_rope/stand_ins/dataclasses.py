"""Dataclasses and named tuples as `port` writes them out, for MicroPython."""


class Data:
    """`_fields` has the names of all fields, `_compared` of those that count where two are compared."""

    def __eq__(self, other):
        return type(other) is type(self) and self._key() == other._key()

    def __hash__(self):
        return hash(self._key())

    def _key(self):
        return tuple(getattr(self, name) for name in self._compared)

    def __repr__(self):
        fields = ["%s=%r" % (name, getattr(self, name)) for name in self._fields]
        return "%s(%s)" % (type(self).__name__, ", ".join(fields))


class NamedData(Data):
    def __iter__(self):
        return iter([getattr(self, name) for name in self._fields])

    def __len__(self):
        return len(self._fields)

    def __getitem__(self, place):
        return getattr(self, self._fields[place])

    def _replace(self, **new):
        return replace(self, **new)


def replace(one, **new):
    return type(one)(**{name: new[name] if name in new else getattr(one, name) for name in one._fields})


class _Slices:
    def __getitem__(self, key):
        return key


slices = _Slices()
