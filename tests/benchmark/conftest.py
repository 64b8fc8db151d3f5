"""The browser of the viewer's tests, for what is measured in it."""

from tests.viewer.conftest import chromium as chromium
