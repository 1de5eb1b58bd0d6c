"""Shared by all tests: no network; where LibreOffice is missing, tests marked `office` are skipped, unless required."""

import os
import shutil
import socket
from typing import Any, NoReturn

import pytest


def pytest_configure(config: pytest.Config) -> None:
    """Let whatever reaches for the network fail, in every test."""

    def refuse(*arguments: Any, **_: Any) -> NoReturn:
        raise RuntimeError(f"no test may use the network: {arguments}")

    for name in ("connect", "connect_ex", "sendto", "bind"):
        setattr(socket.socket, name, refuse)
    for name in ("getaddrinfo", "gethostbyname", "create_connection"):
        setattr(socket, name, refuse)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Skip `office` tests without LibreOffice; with APPRAISE_OFFICE=required they run and so fail."""
    if os.environ.get("APPRAISE_OFFICE") == "required" or (shutil.which("soffice") and shutil.which("pdftoppm")):
        return
    for item in items:
        if item.get_closest_marker("office"):
            item.add_marker(pytest.mark.skip(reason="LibreOffice or poppler is not installed"))
