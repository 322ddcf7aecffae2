"""Real peers on loopback, each started by the tests and ended by its id: an OpenSSH server, an object store."""

import getpass
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
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
    port = free_port()
    Path("/run/sshd").mkdir(exist_ok=True)
    config = folder / "sshd_config"
    config.write_text(
        f"Port {port}\nListenAddress 127.0.0.1\nHostKey {folder}/host\nAuthorizedKeysFile {folder}/maker.pub\n"
        "PasswordAuthentication no\nKbdInteractiveAuthentication no\nStrictModes no\nPidFile none\n"
        "KexAlgorithms curve25519-sha256\n"
        "Subsystem sftp internal-sftp\n"
    )
    with (folder / "log").open("wb") as log:
        server = subprocess.Popen([str(SSHD), "-D", "-e", "-f", str(config)], stderr=log)
    try:
        _wait_for(port)
        yield (
            f"web-space: {{to: sftp, host: 127.0.0.1, port: {port}, user: {getpass.getuser()}, "
            f"folder: {folder}/web, key: {folder}/maker, "
            f"host_key: {' '.join((folder / 'host.pub').read_text().split()[:2])}}}\n"
        )
    finally:
        server.terminate()
        server.wait()


@contextmanager
def object_store() -> Iterator[str]:
    """A store that speaks S3 on a free port; gives its address."""
    port = free_port()
    command = [sys.executable, "-m", "moto.server", "-H", "127.0.0.1", "-p", str(port)]
    server = subprocess.Popen(
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=os.environ | KEYS
    )
    try:
        _wait_for(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait()


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


def _wait_for(port: int) -> None:
    for _ in range(600):
        try:
            socket.create_connection(("127.0.0.1", port), 1).close()
        except ConnectionRefusedError:
            time.sleep(0.05)
        else:
            return
    raise TimeoutError(port)
