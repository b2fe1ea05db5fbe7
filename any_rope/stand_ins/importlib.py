"""For MicroPython: data files of the program, packed beside its modules."""

import packed


class _Folder:
    def __init__(self, package):
        self.package = package

    def joinpath(self, name):
        return _File("%s/%s" % (self.package.replace(".", "/"), name))


class _File:
    def __init__(self, path):
        self.path = path

    def read_text(self, encoding="utf-8"):
        return packed.FILES[self.path]


class resources:
    @staticmethod
    def files(package):
        return _Folder(package)
