"""As much of numpy as the program's plans, drafts and settling ask for, over the page's arrays (page/src/anyrope).

It runs in MicroPython. Results are copies where numpy's are views. A class of arrays must not have `__float__`: a float
times an array would be a float.
"""

import math

import nd

pi, inf, nan, newaxis = math.pi, math.inf, math.nan, None
int64, float64, bool_, uint8 = "i", "f", "b", "i"
_KINDS = {int: "i", float: "f", bool: "b", "i": "i", "f": "f", "b": "b"}
_Proxy = type(nd.begin())


def _wrap(found):
    return ndarray(found) if type(found) is _Proxy else found


def _bare(value):
    """An array as the page has it; sequences become arrays, plain values stay."""
    if type(value) is ndarray:
        return value.held
    return asarray(value).held if isinstance(value, (list, tuple)) else value


class ndarray:
    __slots__ = ("held",)

    def __init__(self, held):
        self.held = held

    def __add__(self, other):
        return _wrap(nd.binary("add", self.held, _bare(other)))

    def __radd__(self, other):
        return _wrap(nd.binary("add", _bare(other), self.held))

    def __sub__(self, other):
        return _wrap(nd.binary("sub", self.held, _bare(other)))

    def __rsub__(self, other):
        return _wrap(nd.binary("sub", _bare(other), self.held))

    def __mul__(self, other):
        return _wrap(nd.binary("mul", self.held, _bare(other)))

    def __rmul__(self, other):
        return _wrap(nd.binary("mul", _bare(other), self.held))

    def __truediv__(self, other):
        return _wrap(nd.binary("div", self.held, _bare(other)))

    def __rtruediv__(self, other):
        return _wrap(nd.binary("div", _bare(other), self.held))

    def __floordiv__(self, other):
        return _wrap(nd.binary("floordiv", self.held, _bare(other)))

    def __mod__(self, other):
        return _wrap(nd.binary("mod", self.held, _bare(other)))

    def __pow__(self, other):
        return _wrap(nd.binary("pow", self.held, _bare(other)))

    def __rpow__(self, other):
        return _wrap(nd.binary("pow", _bare(other), self.held))

    def __lt__(self, other):
        return _wrap(nd.binary("lt", self.held, _bare(other)))

    def __le__(self, other):
        return _wrap(nd.binary("le", self.held, _bare(other)))

    def __gt__(self, other):
        return _wrap(nd.binary("gt", self.held, _bare(other)))

    def __ge__(self, other):
        return _wrap(nd.binary("ge", self.held, _bare(other)))

    def __eq__(self, other):
        return _wrap(nd.binary("eq", self.held, _bare(other)))

    def __ne__(self, other):
        return _wrap(nd.binary("ne", self.held, _bare(other)))

    def __and__(self, other):
        return _wrap(nd.binary("and", self.held, _bare(other)))

    def __or__(self, other):
        return _wrap(nd.binary("or", self.held, _bare(other)))

    def __xor__(self, other):
        return _wrap(nd.binary("xor", self.held, _bare(other)))

    def __neg__(self):
        return _wrap(nd.unary("neg", self.held))

    def __abs__(self):
        return _wrap(nd.unary("abs", self.held))

    def __invert__(self):
        return _wrap(nd.unary("invert", self.held))

    def __matmul__(self, other):
        return _wrap(nd.matmul(self.held, _bare(other)))

    def _become(self, other):
        nd.update(self.held, _bare(other))
        return self

    def __iadd__(self, other):
        return self._become(self + other)

    def __isub__(self, other):
        return self._become(self - other)

    def __imul__(self, other):
        return self._become(self * other)

    def __itruediv__(self, other):
        return self._become(self / other)

    def __ior__(self, other):
        return self._become(self | other)

    def __iand__(self, other):
        return self._become(self & other)

    def __len__(self):
        return nd.length(self.held, 0)

    def __iter__(self):
        for i in range(len(self)):
            yield _wrap(nd.at(self.held, 0, i))

    def __bool__(self):
        if self.size != 1:
            raise ValueError("an array of several values is neither true nor false")
        return bool(nd.value(self.held))

    def __getitem__(self, key):
        return _wrap(_got(self.held, key))

    def __setitem__(self, key, values):
        if type(key) is ndarray and nd.kind(key.held) == "b":
            nd.put(self.held, nd.pick(nd.numbers(self.held), 0, key.held), _bare(values))
        else:
            nd.put(self.held, _got(nd.numbers(self.held), key), _bare(values))

    @property
    def shape(self):
        return tuple(nd.length(self.held, k) for k in range(nd.axes(self.held)))

    @property
    def ndim(self):
        return nd.axes(self.held)

    @property
    def size(self):
        return nd.size(self.held)

    @property
    def T(self):
        return moveaxis(self, 0, 1)

    def sum(self, axis=None):
        return _wrap(nd.reduce("sum", self.held, axis))

    def mean(self, axis=None):
        return _wrap(nd.reduce("mean", self.held, axis))

    def min(self, axis=None, initial=None):
        if initial is not None and not self.size:
            return initial
        found = _wrap(nd.reduce("min", self.held, axis))
        return found if initial is None else minimum(found, initial)

    def max(self, axis=None, initial=None):
        if initial is not None and not self.size:
            return initial
        found = _wrap(nd.reduce("max", self.held, axis))
        return found if initial is None else maximum(found, initial)

    def argmin(self, axis=None):
        return _wrap(nd.reduce("argmin", self.held, axis))

    def argmax(self, axis=None):
        return _wrap(nd.reduce("argmax", self.held, axis))

    def any(self, axis=None):
        return _wrap(nd.reduce("any", self.held, axis))

    def all(self, axis=None):
        return _wrap(nd.reduce("all", self.held, axis))

    def copy(self):
        return ndarray(nd.cast(self.held, nd.kind(self.held)))

    def ravel(self):
        return ndarray(nd.reshape(self.held, -1))

    def reshape(self, *shape):
        return ndarray(nd.reshape(self.held, *(shape[0] if isinstance(shape[0], tuple) else shape)))

    def astype(self, kind):
        return ndarray(nd.cast(self.held, _KINDS[kind]))

    def tolist(self):
        return [one.tolist() if type(one) is ndarray else one for one in self]


def _got(held, key):
    """What a key takes from an array: numbers, slices, None, an ellipsis, arrays; two arrays for the first two axes."""
    keys = key if type(key) is tuple else (key,)
    if len(keys) == 2 and all_of(isinstance(one, (ndarray, list)) for one in keys):
        return nd.pickTwo(held, _bare(keys[0]), _bare(keys[1]))
    axis = 0
    for place, one in enumerate(keys):
        if one is Ellipsis:
            axis = nd.axes(held) - sum_of(1 for later in keys[place + 1 :] if later is not None)
        elif one is None:
            held, axis = nd.newAxis(held, axis), axis + 1
        elif type(one) is slice:
            held, axis = _slice(held, axis, one.start, one.stop, one.step), axis + 1
        elif isinstance(one, (ndarray, list)):
            by = _bare(one)
            held, axis = nd.pick(held, axis, by), axis + (1 if nd.kind(by) == "b" else nd.axes(by))
        else:
            held = nd.at(held, axis, int(one))
    return held


def _slice(held, axis, start, stop, step):
    if start is None and stop is None and step is None:
        return held
    ends = [None if one is None else int(one) for one in (start, stop, step)]
    return nd.slice(held, axis, *ends)


all_of, any_of, sum_of, abs_of, round_of = all, any, sum, abs, round


def array(values, dtype=None):
    if type(values) is ndarray:
        found = values.copy()
    elif isinstance(values, (int, float)):
        return values
    else:
        found = _of_sequence(list(values))
    return found if dtype is None else found.astype(dtype)


def _of_sequence(values):
    if values and isinstance(values[0], (list, tuple, ndarray)):
        return ndarray(nd.stack(0, *[_bare(array(one)) for one in values]))
    held = nd.begin()
    for value in values:
        nd.push(held, value)
    if values and all_of(type(value) is bool for value in values):
        return ndarray(nd.values(held, "b"))
    whole = values and all_of(type(value) is int for value in values)
    return ndarray(nd.values(held, "i" if whole else "f"))


def asarray(values, dtype=None):
    if type(values) is ndarray and dtype is None:
        return values
    return array(values, dtype)


def _shape(shape):
    return shape if isinstance(shape, (tuple, list)) else (shape,)


def full(shape, value, dtype=None):
    kind = _KINDS[dtype] if dtype else ("b" if type(value) is bool else "i" if type(value) is int else "f")
    return ndarray(nd.full(value, kind, *_shape(shape)))


def zeros(shape, dtype="f"):
    return ndarray(nd.full(0, _KINDS[dtype], *_shape(shape)))


def ones(shape, dtype="f"):
    return ndarray(nd.full(1, _KINDS[dtype], *_shape(shape)))


empty = zeros


def full_like(like, value, dtype=None):
    return full(like.shape, value, dtype or nd.kind(like.held))


def zeros_like(like, dtype=None):
    return full_like(like, 0, dtype)


def ones_like(like, dtype=None):
    return full_like(like, 1, dtype)


def eye(n):
    found = zeros((n, n))
    for i in range(n):
        found[i, i] = 1.0
    return found


def arange(start, stop=None, step=1):
    if stop is None:
        start, stop = 0, start
    whole = all_of(type(one) is int for one in (start, stop, step))
    return ndarray(nd.arange(start, stop, step, "i" if whole else "f"))


def linspace(start, stop, num=50, endpoint=True):
    return ndarray(nd.linspace(start, stop, num, endpoint))


def _unary(name):
    return lambda x: _wrap(nd.unary(name, _bare(x)))


def _binary(name):
    return lambda x, y: _wrap(nd.binary(name, _bare(x), _bare(y)))


def _reduce(name):
    return lambda x, axis=None: _wrap(nd.reduce(name, _bare(x), axis))


sin, cos, tan = _unary("sin"), _unary("cos"), _unary("tan")
arcsin, arccos, arctan = _unary("arcsin"), _unary("arccos"), _unary("arctan")
sqrt, exp, log, floor, ceil, round = (
    _unary("sqrt"),
    _unary("exp"),
    _unary("log"),
    _unary("floor"),
    _unary("ceil"),
    _unary("rint"),
)
abs, sign, radians, degrees = _unary("abs"), _unary("sign"), _unary("radians"), _unary("degrees")
isfinite, isneginf = _unary("isfinite"), _unary("isneginf")
minimum, maximum, arctan2, hypot = _binary("minimum"), _binary("maximum"), _binary("arctan2"), _binary("hypot")
divide = _binary("div")
any, all, sum, mean, argmin, argmax = (
    _reduce("any"),
    _reduce("all"),
    _reduce("sum"),
    _reduce("mean"),
    _reduce("argmin"),
    _reduce("argmax"),
)


def clip(x, low, high):
    return minimum(maximum(x, low), high)


def where(test, yes, no):
    if type(test) is not ndarray:
        return yes if test else no
    return ndarray(nd.where(test.held, _bare(yes), _bare(no)))


def concatenate(parts, axis=0):
    return ndarray(nd.concatenate(axis, *[_bare(part) for part in parts]))


def append(values, more):
    return concatenate([values, more if type(more) is ndarray else [more]])


def stack(parts, axis=0):
    return ndarray(nd.stack(axis, *[_bare(part) for part in parts]))


def column_stack(parts):
    columns = [_bare(part) for part in parts]
    return ndarray(nd.concatenate(1, *[nd.newAxis(one, 1) if nd.axes(one) == 1 else one for one in columns]))


def cumsum(x, axis=0):
    return ndarray(nd.cumsum(_bare(x), axis))


def diff(x, axis=-1, append=None):
    if append is not None:
        x = concatenate([x, append], axis)
    n = nd.length(x.held, axis)
    later, sooner = nd.slice(x.held, axis, 1, n, None), nd.slice(x.held, axis, 0, n - 1, None)
    return _wrap(nd.binary("sub", later, sooner))


def interp(x, xp, fp, left=None, right=None):
    return _wrap(nd.interp(_bare(x), _bare(xp), _bare(fp), left, right))


def searchsorted(values, x, side="left"):
    return _wrap(nd.searchsorted(_bare(values), _bare(x), side == "right"))


def sort(x):
    return ndarray(nd.sort(_bare(x)))


def repeat(x, times):
    counts = [times] * len(x) if isinstance(times, int) else list(times)
    return array([one for one, count in zip(list(x), counts) for _ in range(count)])


def broadcast_to(x, shape):
    return ndarray(nd.broadcast(_bare(x), *shape))


def broadcast_arrays(*parts):
    shape = parts[0]
    for part in parts[1:]:
        shape = shape * 0 + part
    return [broadcast_to(part, shape.shape) for part in parts]


def moveaxis(x, source, destination):
    return ndarray(nd.moveAxis(x.held, source, destination))


def flatnonzero(x):
    return ndarray(nd.flatnonzero(x.held))


def trapezoid(y, x):
    return (diff(x) * (y[1:] + y[:-1]) / 2.0).sum()


def pad(x, widths, mode="constant"):
    pairs = ((widths, widths),) * x.ndim if isinstance(widths, int) else widths
    pairs = (pairs,) if isinstance(pairs[0], int) else pairs
    return ndarray(nd.pad(x.held, mode == "edge", *[one for pair in pairs for one in pair]))


def atleast_1d(x):
    return x if type(x) is ndarray else array([x])


def ascontiguousarray(x):
    return x


def unravel_index(numbers, shape):
    found = []
    for n in reversed(shape):
        found.append(numbers % n)
        numbers = numbers // n
    return tuple(reversed(found))


class linalg:
    @staticmethod
    def norm(x, axis=None):
        return _wrap(nd.reduce("norm", _bare(x), axis))

    @staticmethod
    def lstsq(a, b, rcond=None):
        return (ndarray(nd.lstsq(a.held, b.held, rcond)),)
