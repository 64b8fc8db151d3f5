"""A folder of settings that cannot be read is no fault, and settings change nothing."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ASK = """
import os
from trimwright.viewer.data import dxf_library
import ezdxf
print(ezdxf.options.loaded_config_files, {name: os.environ.get(name) for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME")})
"""


@pytest.mark.parametrize("name", ["x" * 300, "here"], ids=["cannot be read", "has settings"])
def test_the_library_is_there_without_settings(tmp_path: Path, name: str) -> None:
    """A name longer than file systems take is refused even to whoever may read everything."""
    (tmp_path / "here" / "ezdxf").mkdir(parents=True)
    (tmp_path / "here" / "ezdxf" / "ezdxf.ini").write_text("[core]\nload_proxy_graphics = false\n")
    folders = dict.fromkeys(("XDG_CONFIG_HOME", "XDG_CACHE_HOME"), str(tmp_path / name))
    done = subprocess.run(
        [sys.executable, "-P", "-c", ASK],
        env=os.environ | folders,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.stdout, done.stderr) == (f"() {folders}\n", "")
