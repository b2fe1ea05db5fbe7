"""Spoilt files: TOML and CSV texts changed by one to four strokes that know their structure, or not even that."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

Stroke = Callable[[list[str], random.Random], None]

VALUES = (
    "true", "false", "0", "-1", "1", "2", "7", "1e3", "-0.0", "inf", "-inf", "nan", "1e308", "5e-324", "1e-400",
    "9" * 25, "-" + "9" * 400, "0x" + "f" * 900, "0x" + "f" * 6000, "0b" + "1" * 20000, "0o777", "1_000", '""', '" "',
    '"x"', '"8 mm"', '"-8 mm"', '"0 mm"', '"8"', '"8 kg"', '"7 d"', '"0.0001 d"', '"1 3/8 in"', '"1/0 in"',
    '"2 ft 3 in"', '"3 in 2 ft"', '"99999999999999999999999999999999999999999999999999999999 m"',
    '"0.00000000000000000000000000000000000000000000000000001 mm"', '"8,5 mm"', '"８ mm"', '"8 mm\\u0000"', '"٣ mm"',
    '"8 mm mm"', '"8 /m"', '"8 m/s"', '"8 g/"', '"8 lb/100 ft"', '"8 __class__"', '"8 dimensionless"', '"8 °"',
    '"45 kN"', '"75 %"', '"-75 %"', '"1e9 %"', '"45 deg"', '"20 degF"', '"-300 degC"', '"\\u202e mm 8"', '"🪢"',
    '"a\\u0301"', '"\\n"', '"\\u001b[31mred"', '"' + "x" * 200 + '"', '"' + "9" * 70 + ' mm"', '"../../../etc/passwd"',
    '"/dev/zero"', '"."', '"CON"', '"=1+1"', '"<b>"', "'''\ntwo\nlines'''", "[]", "[[]]", "[1, 2, 3]", '["8 mm"]',
    '["8 mm", 3, true]', "{}", "{ a = 1 }", '{ kind = "ring" }', "[{}, {}]", "1979-05-27", "1979-05-27T07:32:00Z",
    "07:32:00", "[" * 60 + "]" * 60, "[" * 3000 + "]" * 3000, "{a=" * 300 + "1" + "}" * 300, '"ring"', '"teardrop"',
    '"deadeye"', '"pin"', '"plain"', '"fitting"', '"locked-free"', '"over-one"', '"over-two"', '"turnbuckle"', "16",
    "8", "48", "50", "4", "6", '"[' + "8, " * 30 + ']"',
)  # fmt: skip
"""What a key may be set to: every type, bounds and beyond, units of all kinds, other scripts, nesting."""

KEYS = (
    "schema", "name", "kind", "diameter", "strands", "pitch", "ends", "line", "rope", "terminator", "tools", "practice",
    "fids", "hole", "width", "eye_length", "bury", '""', "'a b'", '"\\u0000"', "a.b.c", "rope.diameter", "__class__",
    "model_config", "schema_version", "κλειδί", "1", "-", '"]"', '"="', "x" * 300, "print", "lines", "spools", "job",
    "quantity", "date", "records", "test_splices", "measured",
)  # fmt: skip

HEADERS = (
    "[rope]", "[[rope]]", "[terminator]", "[[line.ends]]", "[line.ends]", "[line.ends.terminator]", "[line.adjuster]",
    "[line]", "[practice]", "[print]", "[tools]", "[]", "[[]]", "[a.b.c.d]", '["quo.ted"]', "['']", "[line.ends.x.y]",
    "[[lines]]", "[[spools]]", "[[ropes]]", "[[test_splices]]", "[measured]", "[schema]", "[" + "a." * 500 + "a]",
)  # fmt: skip

LETTERS = "\x00\x07\x1b\x7f\x85\u2028\u202e\u200d\ufeff\ud7ff\U0010ffff\"'\\#=[]{},.\n\r\t é🪢٣"

PAIR = re.compile(r"^(\s*[\w.\"'-]+\s*=\s*)(.*)$")


def mutated(text: str, chance: random.Random) -> bytes:
    """The text after one to four strokes, as bytes."""
    lines = text.split("\n")
    for _ in range(chance.choice((1, 1, 1, 2, 3, 4))):
        chance.choice(STROKES)(lines, chance)
    content = "\n".join(lines).encode("utf-8", "surrogatepass")
    return _bytes(content, chance) if chance.random() < 0.12 else content


def _at(lines: list[str], chance: random.Random) -> int:
    """A line that says something, where there is one."""
    said = [index for index, line in enumerate(lines) if line.strip() and not line.startswith("#")]
    return chance.choice(said) if said else 0


def _pair(lines: list[str], chance: random.Random) -> int | None:
    """A line with a key and its value."""
    pairs = [index for index, line in enumerate(lines) if PAIR.match(line)]
    return chance.choice(pairs) if pairs else None


def _another_value(lines: list[str], chance: random.Random) -> None:
    index = _pair(lines, chance)
    if index is not None:
        lines[index] = PAIR.sub(lambda found: found[1] + chance.choice(VALUES), lines[index])


def _another_number(lines: list[str], chance: random.Random) -> None:
    """A figure made larger, smaller, negative or nothing, its unit kept."""
    index = _pair(lines, chance)
    if index is None:
        return
    figures = list(re.finditer(r"\d+(?:\.\d+)?", lines[index]))
    if figures:
        found = chance.choice(figures)
        factor = chance.choice((0.0, -1.0, 0.1, 0.5, 0.9, 1.1, 2.0, 3.0, 10.0, 1000.0, 1e12))
        value = f"{float(found[0]) * factor:.6f}".rstrip("0").rstrip(".")
        lines[index] = lines[index][: found.start()] + value + lines[index][found.end() :]


def _values_exchanged(lines: list[str], chance: random.Random) -> None:
    one, other = _pair(lines, chance), _pair(lines, chance)
    if one is None or other is None:
        return
    a, b = PAIR.match(lines[one]), PAIR.match(lines[other])
    if a is not None and b is not None:
        lines[one], lines[other] = a[1] + b[2], b[1] + a[2]


def _another_key(lines: list[str], chance: random.Random) -> None:
    index = _pair(lines, chance)
    if index is not None:
        lines[index] = PAIR.sub(lambda found: f"{chance.choice(KEYS)} = {found[2]}", lines[index])


def _key_misspelt(lines: list[str], chance: random.Random) -> None:
    index = _pair(lines, chance)
    if index is not None and lines[index]:
        at = chance.randrange(lines[index].index("=") + 1)
        lines[index] = lines[index][:at] + chance.choice("aexz_.-") + lines[index][at + chance.randrange(2) :]


def _more(lines: list[str], chance: random.Random) -> None:
    lines.insert(_at(lines, chance), f"{chance.choice(KEYS)} = {chance.choice(VALUES)}")


def _header(lines: list[str], chance: random.Random) -> None:
    lines.insert(_at(lines, chance), chance.choice(HEADERS))


def _gone(lines: list[str], chance: random.Random) -> None:
    if lines:
        del lines[_at(lines, chance)]
    if not lines:
        lines.append("")


def _twice(lines: list[str], chance: random.Random) -> None:
    index = _at(lines, chance)
    lines.insert(chance.randrange(len(lines) + 1), lines[index])


def _many(lines: list[str], chance: random.Random) -> None:
    index, length = _at(lines, chance), chance.randrange(1, 9)
    lines[index:index] = lines[index : index + length] * chance.choice((1, 2, 60))


def _moved(lines: list[str], chance: random.Random) -> None:
    line = lines.pop(_at(lines, chance))
    lines.insert(chance.randrange(len(lines) + 1), line)


def _cut(lines: list[str], chance: random.Random) -> None:
    del lines[1 + _at(lines, chance) :]
    lines[-1] = lines[-1][: chance.randrange(len(lines[-1]) + 1)]


def _letter(lines: list[str], chance: random.Random) -> None:
    index = _at(lines, chance)
    at = chance.randrange(len(lines[index]) + 1)
    lines[index] = lines[index][:at] + chance.choice(LETTERS) * chance.choice((1, 1, 40)) + lines[index][at:]


def _cell(lines: list[str], chance: random.Random) -> None:
    """Another cell, where the text is a table of them."""
    index = _at(lines, chance)
    cells = lines[index].split(",")
    at = chance.randrange(len(cells))
    cells[at] = chance.choice((*VALUES, "", '"', '"a,b"', "name", "length [kg]", "length (m", "tension [N]", "1;2"))
    lines[index] = ",".join(cells)


def _inline(lines: list[str], chance: random.Random) -> None:
    """A value put inside an array or a table of its own."""
    index = _pair(lines, chance)
    if index is not None:
        how = chance.choice(("[{}]", "{{ a = {} }}", "[[{}]]", '"{}"', "[{},\n{}\n]"))
        lines[index] = PAIR.sub(lambda found: found[1] + how.format(found[2], found[2]), lines[index])


STROKES: tuple[Stroke, ...] = (
    _another_value, _another_value, _another_value, _another_number, _another_number, _another_number,
    _values_exchanged, _another_key, _key_misspelt, _more, _header, _gone, _gone, _twice, _many, _moved, _cut, _letter,
    _cell, _inline,
)  # fmt: skip


def _bytes(content: bytes, chance: random.Random) -> bytes:
    """Bytes that are no text any more: cut short, turned over, or of another encoding."""
    spoilt = bytearray(content)
    way = chance.randrange(5)
    if way == 0:
        return content[: chance.randrange(len(content) + 1)]
    if way == 1 and spoilt:
        for _ in range(chance.randrange(1, 6)):
            spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
        return bytes(spoilt)
    if way == 2:
        return content.decode("utf-8", "replace").encode(chance.choice(("utf-16", "utf-32", "latin-1")), "replace")
    if way == 3:
        return content.replace(b"\n", chance.choice((b"\r\n", b"\r", b"\n\n", b"\x00")))
    return chance.choice((b"\xef\xbb\xbf", b"\xff", b"\x1f\x8b")) + content
