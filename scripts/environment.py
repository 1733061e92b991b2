"""Make the project's own Python environment (.venv), so that one command works on a fresh machine.

Standard library only, and kept to words that an old Python can still read: the first thing it does is to
say which Python is needed, and an old one must get far enough to say so.
"""

import hashlib
import os
import subprocess
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
VENV = os.path.join(ROOT, ".venv")
OLDEST = (3, 11)
WINDOWS = os.name == "nt"


def stop(lines):
    """Say what is missing and what to do, and end with exit code 2."""
    sys.stderr.write("\n".join(lines) + "\n")
    sys.exit(2)


def check_python():
    """End with clear words where this Python is too old or cannot make an environment."""
    if sys.version_info < OLDEST:
        newer = find_newer()
        if newer:
            say("This Python is too old; going on with " + newer)
            sys.exit(subprocess.call([newer] + sys.argv))  # noqa: RUF005
        have = ".".join(str(part) for part in sys.version_info[:3])
        stop(
            [
                "Python 3.11 or later is needed; this is Python " + have + " (" + sys.executable + ").",
                "  Linux:   install python3.11 or later (and its -venv package), then run it by that name:",
                "           python3.12 " + " ".join(sys.argv),
                "  macOS:   install it from python.org or a package manager, open a new terminal, run again.",
                "  Windows: install Python from python.org, then:  py " + " ".join(sys.argv),
            ]
        )
    try:
        import ensurepip  # noqa: F401
        import venv  # noqa: F401
    except ImportError as error:
        version = str(sys.version_info[0]) + "." + str(sys.version_info[1])
        stop(
            [
                "This Python cannot make an environment: its module '" + str(error.name) + "' is missing.",
                "  Debian, Ubuntu and their kin: sudo apt install python" + version + "-venv",
                "  Elsewhere: install a complete Python " + version + ". Then run the same command again.",
            ]
        )


def find_newer():
    """A Python on this machine that is new enough, or None."""
    names = ["python3." + str(minor) for minor in range(19, OLDEST[1] - 1, -1)]
    for name in names:
        for folder in os.environ.get("PATH", "").split(os.pathsep):
            path = os.path.join(folder, name + (".exe" if WINDOWS else ""))
            if os.path.isfile(path) and works(path):
                return path
    return None


def works(path):
    """Whether that file is a Python that runs and is new enough (a shim may be neither)."""
    ask = "import sys; sys.exit(sys.version_info < " + repr(OLDEST) + ")"
    try:
        with open(os.devnull, "w") as nowhere:
            return subprocess.call([path, "-c", ask], stdout=nowhere, stderr=nowhere) == 0
    except OSError:
        return False


def venv_python():
    """Path of the Python inside .venv."""
    return os.path.join(VENV, "Scripts", "python.exe") if WINDOWS else os.path.join(VENV, "bin", "python")


def stamp_of(extra):
    """What the environment was made from; when it differs, packages are installed again."""
    digest = hashlib.sha256((sys.version + ROOT + extra).encode("utf-8"))
    for name in ("pyproject.toml", "constraints.txt"):
        with open(os.path.join(ROOT, name), "rb") as file:
            digest.update(file.read())
    return digest.hexdigest()


def read(path):
    """The text of a file, or "" where there is none."""
    try:
        with open(path) as file:
            return file.read()
    except OSError:
        return ""


def call(command, quiet=False):
    """Run a command; returns its exit code and, when quiet, what it printed."""
    if quiet:
        done = subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        return done.returncode, done.stdout.decode("utf-8", "replace")
    return subprocess.run(command, cwd=ROOT).returncode, ""


def make(extra=""):
    """Make .venv and install this project into it, unless that is done already.

    ``extra`` is "" for running, "test" for testing. Returns the path of the environment's Python.
    Writes only inside .venv.
    """
    check_python()
    stamp_file = os.path.join(VENV, "made-for-" + (extra or "run"))
    wanted = stamp_of(extra)
    python = venv_python()
    if os.path.exists(python) and read(stamp_file) == wanted:
        return python
    if not os.path.exists(python) or call([python, "-c", "import pip"], quiet=True)[0]:
        say("Making a Python environment in .venv (once) ...")
        code, output = call([sys.executable, "-m", "venv", "--clear", VENV], quiet=True)
        if code:
            stop(
                [
                    output.strip(),
                    "The environment could not be made (words above).",
                    "  Debian, Ubuntu and their kin: sudo apt install python3-venv",
                    "  Check that this folder may be written and that the disk has room: " + ROOT,
                ]
            )
    what = ".[" + (extra or "paper,lan") + "]"
    say("Installing what it needs into .venv (once, from the Python package index) ...")
    # Wheels only: nothing is compiled, so no compiler is asked for; a Python without wheels is said plainly.
    # PsychroLib comes as its source alone, one file of plain Python.
    command = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    command += ["--only-binary", ":all:", "--no-binary", "psychrolib"]
    command += ["--constraint", "constraints.txt", "--editable", what]
    code, output = call(command, quiet=True)
    if code:
        stop([output.strip(), "Packages could not be installed (words above)."] + advice(output))  # noqa: RUF005
    with open(stamp_file, "w") as file:
        file.write(wanted)
    return python


def advice(output):
    """What to do about a failed install, from what pip said."""
    version = str(sys.version_info[0]) + "." + str(sys.version_info[1])
    low = output.lower()
    if any(
        sign in low
        for sign in (
            "connection",
            "timed out",
            "timeout",
            "resolve host",
            "name resolution",
            "proxy",
            "ssl",
            "network",
        )
    ):
        return ["  No way through to the package index: check the network (or the proxy), then run it again."]
    if "no matching distribution" in low or "could not find a version" in low:
        return [
            "  A package has no ready-made build for Python " + version + " on this machine, or the index",
            "  was not reached. Known to work: 64-bit Python 3.11 to 3.14 on Linux, macOS and Windows.",
        ]
    if "no space" in low:
        return ["  The disk is full: make room, then run the same command again."]
    return ["  Delete the folder .venv and run the same command again."]


def say(text):
    """One line of progress, on stderr so that what is printed can be piped."""
    sys.stderr.write(text + "\n")
    sys.stderr.flush()
