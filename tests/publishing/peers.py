"""Real peers on loopback: an OpenSSH server of the test's own, ended by its id."""

import getpass
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SSHD = shutil.which("sshd") or shutil.which("sshd", path="/usr/sbin:/usr/local/sbin")
TOOLS = SSHD is not None and shutil.which("sftp") is not None and shutil.which("ssh-keygen") is not None


@contextmanager
def ssh_server(folder: Path) -> Iterator[str]:
    """A server on a free port that lets one new key in; gives its entry for publish.yaml."""
    for name in ("host", "maker"):
        subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", str(folder / name)], check=True)  # noqa: S607
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    Path("/run/sshd").mkdir(exist_ok=True)
    (folder / "web").mkdir()
    config = folder / "sshd_config"
    config.write_text(
        f"Port {port}\nListenAddress 127.0.0.1\nHostKey {folder}/host\nAuthorizedKeysFile {folder}/maker.pub\n"
        "PasswordAuthentication no\nKbdInteractiveAuthentication no\nStrictModes no\nPidFile none\n"
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


def _wait_for(port: int) -> None:
    for _ in range(100):
        try:
            socket.create_connection(("127.0.0.1", port), 1).close()
        except ConnectionRefusedError:
            time.sleep(0.05)
        else:
            return
    raise TimeoutError(port)
