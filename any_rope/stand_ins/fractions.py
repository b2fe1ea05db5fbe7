"""As much of fractions as units ask for, for MicroPython; denominators are limited by the usual continued fraction."""


def _gcd(a, b):
    while b:
        a, b = b, a % b
    return abs(a)


def _read(text):
    whole, _, part = text.strip().partition(".")
    return int(whole + part), 10 ** len(part)


def _exact(value):
    """A float as a fraction of a power of two."""
    bottom = 1
    while value != int(value):
        value, bottom = value * 2, bottom * 2
    return int(value), bottom


class Fraction:
    def __init__(self, top=0, bottom=1):
        if isinstance(top, str):
            top, bottom = _read(top)
        elif isinstance(top, float):
            top, bottom = _exact(top)
        elif isinstance(top, Fraction):
            top, bottom = top.numerator, top.denominator
        shared = _gcd(top, bottom) or 1
        self.numerator, self.denominator = top // shared, bottom // shared

    def _with(self, other):
        return other if isinstance(other, Fraction) else Fraction(other)

    def __add__(self, other):
        b = self._with(other)
        return Fraction(
            self.numerator * b.denominator + b.numerator * self.denominator, self.denominator * b.denominator
        )

    __radd__ = __add__

    def __neg__(self):
        return Fraction(-self.numerator, self.denominator)

    def __sub__(self, other):
        return self + -self._with(other)

    def __mul__(self, other):
        b = self._with(other)
        return Fraction(self.numerator * b.numerator, self.denominator * b.denominator)

    __rmul__ = __mul__

    def __truediv__(self, other):
        b = self._with(other)
        top, bottom = self.numerator * b.denominator, self.denominator * b.numerator
        return Fraction(-top, -bottom) if bottom < 0 else Fraction(top, bottom)

    def __pow__(self, power):
        one = Fraction(self.numerator**power, self.denominator**power) if power >= 0 else Fraction(1) / self**-power
        return one

    def __abs__(self):
        return Fraction(abs(self.numerator), self.denominator)

    def __bool__(self):
        return self.numerator != 0

    def __lt__(self, other):
        b = self._with(other)
        return self.numerator * b.denominator < b.numerator * self.denominator

    def __gt__(self, other):
        return self._with(other) < self

    def __eq__(self, other):
        b = self._with(other)
        return self.numerator == b.numerator and self.denominator == b.denominator

    def __hash__(self):
        return hash((self.numerator, self.denominator))

    def __float__(self):
        return self.numerator / self.denominator

    def parts(self):
        """Whole part and rest, as divmod by 1 gives them."""
        whole = self.numerator // self.denominator
        return whole, Fraction(self.numerator - whole * self.denominator, self.denominator)

    def limit_denominator(self, most):
        if self.denominator <= most:
            return self
        p0, q0, p1, q1 = 0, 1, 1, 0
        n, d = self.numerator, self.denominator
        while True:
            a = n // d
            q2 = q0 + a * q1
            if q2 > most:
                break
            p0, q0, p1, q1 = p1, q1, p0 + a * p1, q2
            n, d = d, n - a * d
        k = (most - q0) // q1
        one, two = Fraction(p0 + k * p1, q0 + k * q1), Fraction(p1, q1)
        return two if abs(two - self) < abs(one - self) or abs(two - self) == abs(one - self) else one
