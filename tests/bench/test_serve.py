"""Where a workbench listens."""

from __future__ import annotations

import socket
import subprocess
import sys

import pytest

from cordwright.bench import serve
from cordwright.errors import CordwrightError


def test_two_workbenches_started_together_have_ports_of_their_own() -> None:
    with serve._listening(0) as one:
        port = one.getsockname()[1]
        with pytest.raises(CordwrightError, match=f"Port {port} cannot be used") as refused:
            serve._listening(port)
        assert "--port" in refused.value.remedy
    with serve._listening(port) as again:  # free again once the first has gone
        assert again.getsockname() == ("127.0.0.1", port)


def test_a_usual_port_that_is_taken_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    with serve._listening(0) as taken:
        number = taken.getsockname()[1]
        monkeypatch.setattr(serve, "PORTS", range(number, number + 1))
        with serve._listening(None) as found:
            assert found.getsockname()[1] != number


def test_it_answers_this_computer_only_and_at_once() -> None:
    with serve._listening(0) as listening:
        assert listening.getsockname()[0] == "127.0.0.1"
        with socket.create_connection(listening.getsockname(), 5.0):
            pass


def test_the_server_starts_without_what_only_its_workers_need() -> None:
    heavy = ("numpy", "scipy", "ruamel.yaml", "cordwright.plan.model", "cordwright.hang.shape")
    script = (
        "import sys; from cordwright.bench import app, serve; "
        f"print([m for m in {heavy!r} if m in sys.modules])"
    )
    said = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert said.stdout.strip() == "[]", said.stderr
