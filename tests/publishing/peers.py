"""Real peers on loopback, each started by the tests and ended by its id: an OpenSSH server, an object store."""

import getpass
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from botocore.session import Session

SSHD = shutil.which("sshd") or shutil.which("sshd", path="/usr/sbin:/usr/local/sbin")
TOOLS = SSHD is not None and shutil.which("sftp") is not None and shutil.which("ssh-keygen") is not None
KEYS = {"AWS_ACCESS_KEY_ID": "loopback", "AWS_SECRET_ACCESS_KEY": "loopback-secret"}
"""Invented; the store of the tests lets everybody in."""


@contextmanager
def ssh_server(folder: Path) -> Iterator[str]:
    """A server on a free port that lets one new key in; gives its entry for publish.yaml.

    It offers the quickest exchange of keys alone: the usual one takes six times as long as all else of a connection.
    """
    for name in ("host", "maker"):
        subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", str(folder / name)], check=True)  # noqa: S607
    Path("/run/sshd").mkdir(exist_ok=True)
    config = folder / "sshd_config"
    config.write_text(
        f"ListenAddress 127.0.0.1\nHostKey {folder}/host\nAuthorizedKeysFile {folder}/maker.pub\n"
        "PasswordAuthentication no\nKbdInteractiveAuthentication no\nStrictModes no\nPidFile none\n"
        "KexAlgorithms curve25519-sha256\n"
        "Subsystem sftp internal-sftp\n"
    )
    command = [str(SSHD), "-D", "-e", "-f", str(config), "-p"]
    with _serving(command, "Server listening on", os.environ) as port:
        yield (
            f"web-space: {{to: sftp, host: 127.0.0.1, port: {port}, user: {getpass.getuser()}, "
            f"folder: {folder}/web, key: {folder}/maker, "
            f"host_key: {' '.join((folder / 'host.pub').read_text().split()[:2])}}}\n"
        )


@contextmanager
def object_store() -> Iterator[str]:
    """A store that speaks S3 on a free port; gives its address."""
    command = [sys.executable, "-m", "moto.server", "-H", "127.0.0.1", "-p"]
    with _serving(command, "Running on", os.environ | KEYS) as port:
        yield f"http://127.0.0.1:{port}"


@contextmanager
def _serving(command: list[str], ready: str, environment: Mapping[str, str]) -> Iterator[int]:
    """A server that says on standard error when it listens; gives its port.

    Tests run side by side, so the port that was free may be taken before the server has it: then it tries another.
    """
    with TemporaryDirectory() as folder, ExitStack() as files:
        log = Path(folder) / "log"
        for _ in range(5):
            port = free_port()
            said = files.enter_context(log.open("wb"))
            server = subprocess.Popen([*command, str(port)], env=environment, stdout=said, stderr=said)
            if _says(log, ready, server):
                break
            server.wait()
        else:
            raise ChildProcessError(command)
        try:
            yield port
        finally:
            server.terminate()
            server.wait()


def _says(log: Path, ready: str, server: "subprocess.Popen[bytes]") -> bool:
    """Whether a server listens; False when it has ended instead."""
    while server.poll() is None:
        if ready.encode() in log.read_bytes():
            return True
        time.sleep(0.05)
    return False


@cache
def client_of(endpoint: str) -> Any:
    """A client of the tests' own, made once for all buckets of a store, since that takes a tenth of a second."""
    return Session().create_client(
        "s3",
        endpoint_url=endpoint,
        region_name="us-east-1",
        aws_access_key_id=KEYS["AWS_ACCESS_KEY_ID"],
        aws_secret_access_key=KEYS["AWS_SECRET_ACCESS_KEY"],
    )


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port: int = free.getsockname()[1]
    return port
