"""Regular expressions of the browser by the names of Python's, for MicroPython."""

import nd

ASCII = 0


class Match:
    def __init__(self, held):
        self.held = held

    def group(self, name=0):
        return nd.group(self.held, name)

    def end(self):
        return nd.end(self.held)

    def start(self):
        return nd.end(self.held) - len(self.group())

    def __getitem__(self, name):
        return self.group(name)


class Pattern:
    def __init__(self, source, flags=0):
        self.source = source.replace("(?P<", "(?<")

    def _found(self, text, at, way):
        held = nd.matched(self.source, text, at, way)
        return None if held is None else Match(held)

    def match(self, text, at=0):
        return self._found(text, at, "here")

    def fullmatch(self, text):
        return self._found(text, 0, "whole")

    def search(self, text, at=0):
        return self._found(text, at, "anywhere")

    def subn(self, new, text):
        done, at, count = [], 0, 0
        while at <= len(text):
            found = self.search(text, at)
            if found is None:
                break
            done += [text[at : found.start()], new if isinstance(new, str) else new(found)]
            count += 1
            if found.end() == found.start():
                done.append(text[found.end() : found.end() + 1])
            at = max(found.end(), found.start() + 1)
        return "".join(done) + text[at:], count


def compile(source, flags=0):
    return Pattern(source, flags)


def match(source, text):
    return Pattern(source).match(text)


def search(source, text):
    return Pattern(source).search(text)


def fullmatch(source, text):
    return Pattern(source).fullmatch(text)


def sub(source, new, text):
    return Pattern(source).subn(new, text)[0]


def subn(source, new, text):
    return Pattern(source).subn(new, text)
