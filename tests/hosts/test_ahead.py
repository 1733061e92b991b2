"""What is worked out when the bundle is built is what the standard library would work out at each start."""

from __future__ import annotations

import importlib
import importlib.util
import io
import marshal
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from undertile.bench.innode import SITE, run
from undertile.hosts.phone.ahead import HEAD, NAME, Packed

COMPILED = f"""
import dataclasses, marshal, re
from undertile.hosts.phone import ahead
content = open("{SITE}/{NAME}", "rb").read()
texts, fields, patterns = marshal.loads(content)
sound = all(compile(text, "<ahead>", "exec", dont_inherit=True) == code for text, code in texts.items())
sound &= all(compile(*key, dont_inherit=True) == code for key, code in fields.items())
own = re._compiler.compile
def same(one, other):
    return one == other and one.groupindex == other.groupindex and one.flags == other.flags
by_hand = {{key: own(*key) for key in patterns}}
lacking = ahead.use(content)
sound_too = all(same(re._compiler.compile(*key), made) for key, made in by_hand.items())
other = re.compile("neither here (?P<nor>there)").match("neither here there")["nor"]
@dataclasses.dataclass
class Fresh:
    one: int
known = len(lacking)
import undertile.hosts.phone.inside
many = len(texts) > 100 and len(fields) > 100 and len(patterns) > 20
print(sound, sound_too, many, other, Fresh(1).one, known, len(lacking))
0
"""


def test_what_was_worked_out_is_what_python_would_make(node: str) -> None:
    """Independent: the standard library's own compilers, in the interpreter of the phone; and nothing of ours
    is left to compile at a start."""
    code, printed = run(COMPILED)
    assert code == 0, printed
    assert printed.split() == ["True", "True", "True", "there", "1", "1", "1"]


@pytest.fixture
def packed(tmp_path: Path) -> Iterator[Packed]:
    """Two modules in a package, compiled, in a zip as the bundle has them."""
    texts = {
        "lying/__init__.py": "from lying.deep.one import ANSWER",
        "lying/deep/__init__.py": "",
        "lying/deep/one.py": "ANSWER = 42",
    }
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, text in texts.items():
            code = marshal.dumps(compile(text, name, "exec"))
            archive.writestr(f"{name}c", importlib.util.MAGIC_NUMBER + b"\0" * (HEAD - 4) + code)
        told = [
            (info.filename, info.header_offset + 30 + len(info.filename), info.file_size)
            for info in archive.infolist()
        ]
    finder = Packed("/nowhere", out.getvalue(), told)
    sys.meta_path.insert(0, finder)
    yield finder
    sys.meta_path.remove(finder)
    for name in [name for name in sys.modules if name.partition(".")[0] == "lying"]:
        del sys.modules[name]


def test_modules_are_found_where_they_lie(packed: Packed) -> None:
    lying = importlib.import_module("lying")
    assert lying.ANSWER == 42
    assert lying.__file__ == "/nowhere/lying/__init__.pyc"
    assert lying.__path__ == ["/nowhere/lying"]
    assert sys.modules["lying.deep.one"].__package__ == "lying.deep"


def test_what_is_not_there_is_left_to_others(packed: Packed) -> None:
    assert packed.find_spec("lying.elsewhere") is None
    with pytest.raises(ModuleNotFoundError):
        importlib.import_module("lying.elsewhere")
