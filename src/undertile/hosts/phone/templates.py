"""Compile ahead what Python would compile at each start. Runs inside Pyodide, on a folder at ``/mnt/pack``.

``packages.zip`` and ``undertile.zip`` -> ``whole.zip``: ours, with each template in Jinja2's compiled form,
and with what ``ahead.py`` recorded while every module of ours was imported. They are unpacked where the phone
unpacks them, for Jinja2 knows a template by its place.
"""

import importlib
import os
import sys
import zipfile

SITE = "/lib/python3.14/site-packages"
_WORK = "/mnt/pack"
_DATE = (1980, 1, 1, 0, 0, 0)

for _name in ("packages", "undertile"):
    zipfile.ZipFile(f"{_WORK}/{_name}.zip").extractall(SITE)
sys.path.insert(0, SITE)
_folder = f"{SITE}/undertile/screens/compiled"
os.mkdir(_folder)

from undertile.hosts.phone import ahead  # noqa: E402

_recorded = ahead.record()

from undertile.screens.page import Page  # noqa: E402

_environment = Page().environment
for _name in _environment.list_templates():
    _environment.get_template(_name)

with zipfile.ZipFile(f"{_WORK}/undertile.zip") as _ours:
    for _name in sorted(_ours.namelist()):
        if _name.endswith(".pyc"):
            importlib.import_module(_name.removesuffix(".pyc").removesuffix("/__init__").replace("/", "."))

with zipfile.ZipFile(f"{_WORK}/undertile.zip") as _ours, zipfile.ZipFile(f"{_WORK}/whole.zip", "w") as _whole:
    _members = {name: _ours.read(name) for name in _ours.namelist()}
    for _name in os.listdir(_folder):
        with open(f"{_folder}/{_name}", "rb") as _file:
            _members[f"undertile/screens/compiled/{_name}"] = _file.read()
    _members[ahead.NAME] = ahead.written(_recorded)
    for _name in sorted(_members):
        _info = zipfile.ZipInfo(_name, _DATE)
        _info.external_attr = 0o644 << 16
        _whole.writestr(_info, _members[_name])
