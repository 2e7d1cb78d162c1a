"""What serve refuses before it loads anything: ports, addresses, folders, systems."""

import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from app.cli import Refused, root
from app.cli.serve import check_instance, check_platform, claim_port


@pytest.fixture
def taken_port() -> Iterator[int]:
    with socket.create_server(("127.0.0.1", 0)) as listener:
        yield listener.getsockname()[1]


def serve(*arguments: str, **environment: str) -> Result:
    return CliRunner().invoke(root, ["serve", *arguments], env=environment)


def test_port_taken(taken_port: int, tmp_path: Path) -> None:
    result = serve("--port", str(taken_port), "--instance", str(tmp_path))
    assert result.exit_code == 2
    assert f"Port {taken_port} on 127.0.0.1 cannot be used" in result.output
    assert f"--port {taken_port + 1}" in result.output


def test_port_taken_by_environment(taken_port: int, tmp_path: Path) -> None:
    result = serve(PORT=str(taken_port), LUBBERLINE_INSTANCE=str(tmp_path))
    assert result.exit_code == 2
    assert f"Port {taken_port} on 127.0.0.1 cannot be used" in result.output


@pytest.mark.parametrize("port", ["abc", "70000", "-1", "80.5", "80 80"])
def test_port_that_is_none(port: str) -> None:
    by_option, by_environment = serve("--port", port), serve(PORT=port)
    for result in (by_option, by_environment):
        assert result.exit_code == 2
        assert port in result.output
    assert "PORT" in by_environment.output


def test_unknown_host(tmp_path: Path) -> None:
    result = serve("--host", "no such host", "--instance", str(tmp_path))
    assert result.exit_code == 2
    assert "'no such host' is not known" in result.output


def test_unknown_option() -> None:
    result = serve("--prot", "8000")
    assert result.exit_code == 2
    assert "--port" in result.output


def test_instance_in_the_way(tmp_path: Path) -> None:
    (tmp_path / "instance").write_text("a file", "utf-8")
    with pytest.raises(Refused, match=r"cannot be written(?s:.*)serve --instance FOLDER"):
        check_instance(tmp_path / "instance" / "deeper")


def test_instance_is_made(tmp_path: Path) -> None:
    check_instance(tmp_path / "a" / "b")
    assert list((tmp_path / "a" / "b").iterdir()) == []


def test_claimed_port_listens_at_once() -> None:
    with claim_port("127.0.0.1", 0) as listener, socket.create_connection(listener.getsockname()):
        pass


def test_system_without_the_server() -> None:
    check_platform("posix")
    with pytest.raises(Refused, match="Windows Subsystem for Linux"):
        check_platform("nt")
