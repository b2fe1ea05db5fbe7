"""Texts that have broken writers elsewhere: each is somebody's name for something, and comes out as that name."""

from __future__ import annotations

from dataclasses import replace

from fidpath.job.job import End, Job

HOSTILE: dict[str, str] = {
    "script": "</script><img src=x onerror=alert(1)>",
    "style": "</style></title></textarea><!--",
    "attribute": "' onmouseover='alert(1)' x=\"y\"",
    "entity": "&amp;&lt;b&gt;&#x41;&xxe; &",
    "cdata": "]]><x/><![CDATA[",
    "comment": "--> <?pi?> <!DOCTYPE a [<!ENTITY b \"c\">]>",
    "typst": '#panic("x") *b* _u_ @ref $x$ \\ ] [ `r` <a> = // ~ {n}',
    "typst read": '#read("/etc/passwd") #include "x.typ"',
    "tex": "\\input{/etc/passwd} \\write18{id} $x^2$ %",
    "quotes": "\"\"\" ''' `` ‘a’ “b” \\\" \\",
    "toml": '"\n[rope]\ndiameter = "1 mm"',
    "placeholder": "{tail_cut} {0} {} %s %(a)s ${HOME} @@data@@ {{x}}",
    "formula": '=1+1',
    "formula call": '=HYPERLINK("http://192.0.2.1/","x")',
    "formula at": "@SUM(1+1)",
    "formula plus": "+1+1",
    "formula minus": "-1+1",
    "shell": "$(id) `id` ; rm -rf ~ | cat && true > x",
    "up": "../../../etc/passwd",
    "up by backslash": "..\\..\\autoexec.bat",
    "absolute": "/etc/passwd",
    "drive": "C:\\CON",
    "device": "CON",
    "device with an end": "aux.txt",
    "home": "~root/.ssh",
    "hidden": ".bashrc",
    "dots": "..",
    "dot": ".",
    "option": "--out=/tmp",
    "nul": "a\0b",
    "ansi": "\x1b[31mred\x1b[0m\x1b]0;title\x07",
    "bell and back": "a\x07b\x08c\x7f\x85d",
    "carriage return": "good\rbad",
    "newline": "one\ntwo\r\nthree",
    "tab": "one\ttwo",
    "line separator": "one\u2028two\u2029three",
    "bidi": "a\u202egnp.exe\u202c b\u2066c\u2069",
    "right to left": "שלום עולם مرحبا",
    "combining": "Z" + "\u0351\u0300\u0334" * 12 + "algo",
    "composed two ways": "é e\u0301",
    "joined": "👩\u200d👩\u200d👧 🏴\u200d☠️",
    "emoji": "🪢🧵⚓",
    "wide": "船の綱ｆｕｌｌ",
    "noncharacter": "a\ufffeb\uffffc",
    "byte order": "\ufeffname",
    "zero width": "a\u200bb\u200cc",
    "private": "\ue000\U000f0000",
    "long": "W" * 120,
    "longer": "x" * 5000,
    "spaces": "   ",
    "empty": "",
    "figures": "1e999 nan -0",
    "null": "null",
}  # fmt: skip


def named(job: Job, name: str) -> Job:
    """The job with this text in every place that takes one, as code can make it though no file could."""
    ends = tuple(End(name, end.splice, end.eye_length_mm, end.terminator) for end in job.line.ends)
    return replace(
        job,
        name=name,
        rope=replace(job.rope, name=name),
        terminator=replace(job.terminator, name=name),
        line=replace(job.line, name=name, ends=ends, captive_end=name, thread_on_first=(name, name)),
        source=name,
    )
