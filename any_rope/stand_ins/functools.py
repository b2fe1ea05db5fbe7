"""What the program uses of functools, for MicroPython."""


def wraps(_function):
    return lambda function: function


def partial(function, *first, **named):
    def given(*more, **other):
        kept = dict(named)
        kept.update(other)
        return function(*first, *more, **kept)

    return given


def lru_cache(maxsize=128):
    def keeping(function):
        kept = {}

        def cached(*given):
            if given not in kept:
                if maxsize is not None and len(kept) >= maxsize:
                    kept.clear()
                kept[given] = function(*given)
            return kept[given]

        return cached

    return keeping


class _Nothing:
    pass


_number = [0]


def cached_property(function):
    _number[0] += 1
    name = "_kept_%d" % _number[0]

    def get(self):
        found = getattr(self, name, _Nothing)
        if found is _Nothing:
            found = function(self)
            setattr(self, name, found)
        return found

    return property(get)
