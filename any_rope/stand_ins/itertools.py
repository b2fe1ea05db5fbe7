"""What the program uses of itertools, for MicroPython."""


def pairwise(values):
    values = list(values)
    return list(zip(values[:-1], values[1:]))


def combinations_with_replacement(values, number):
    values = list(values)
    if number == 0:
        return [()]
    return [
        (values[k],) + rest
        for k in range(len(values))
        for rest in combinations_with_replacement(values[k:], number - 1)
    ]
