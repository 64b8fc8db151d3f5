"""Programs that the tests look at things with: a browser, a screen without a monitor. Debian has them."""

import os
import shutil
import subprocess
from functools import cache
from pathlib import Path

import pytest


@cache
def bring(program: str, package: str) -> Path:
    """Return where ``program`` is; install Debian's ``package`` first where it is missing and apt can be used.

    A test that needs it fails without it: a test that was skipped has shown nothing.
    """
    found = os.environ.get(program.upper()) or shutil.which(program)
    if found is None and shutil.which("apt-get"):
        as_root = [] if os.geteuid() == 0 else ["sudo", "-n"]
        quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for words in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", package]):
            subprocess.run([*as_root, "apt-get", *words], env=quiet, check=False, capture_output=True)
        found = shutil.which(program)
    if found is None:
        pytest.fail(
            f"{program} is missing: install Debian's {package}, or name it in {program.upper()}",
            pytrace=False,
        )
    return Path(found)
