"""Starting and stopping: the sockets, the browser, and the lines that the terminal shows."""

from __future__ import annotations

import errno
import socket
import threading
import webbrowser
from collections.abc import Callable

import uvicorn

from sonify.errors import SonifyError
from sonify.web.app import Server, application

LOOPBACK = "127.0.0.1"


def loopback_socket(port: int) -> socket.socket:
    """A socket on this machine alone; port 0 takes a free one. Raises SonifyError where it cannot be had."""
    return _bound(LOOPBACK, port)


def _bound(address: str, port: int) -> socket.socket:
    if not 0 <= port <= 65_535:
        raise SonifyError(f"--port {port}: a port is a number from 0 to 65535; 0 takes a free one")
    sock = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        sock.bind((address, port))
    except OSError as error:
        sock.close()
        if error.errno == errno.EADDRINUSE:
            why = "is in use: sonify may be running already in another window"
        elif error.errno == errno.EACCES:
            why = "is kept by the system"
        else:
            why = f"cannot be had ({error.strerror})"
        raise SonifyError(f"port {port} {why}; choose another with --port, or --port 0 for any free one") from None
    return sock


def own_names(port: int) -> list[str]:
    """The Host headers of this machine's own browser."""
    names = [f"{name}:{port}" for name in (LOOPBACK, "localhost", "[::1]")]
    return names + ([LOOPBACK, "localhost", "[::1]"] if port == 80 else [])


def serve(port: int, *, browser: bool, say: Callable[[str], None]) -> None:
    """Serve until Ctrl-C. Raises SonifyError where the port cannot be had."""
    sock = loopback_socket(port)
    port = sock.getsockname()[1]
    address = f"http://{LOOPBACK}:{port}/"
    server = Server()
    config = uvicorn.Config(
        application(server, own_names(port)),
        log_level="warning",
        access_log=False,
        server_header=False,
        lifespan="off",
        timeout_graceful_shutdown=2,
        timeout_keep_alive=30,
    )
    say(f"The classroom page is at {address}  (Ctrl-C stops it)")
    if browser:
        threading.Thread(target=_open_browser, args=(address,), daemon=True).start()
    try:
        uvicorn.Server(config).run(sockets=[sock])
    except KeyboardInterrupt:
        pass
    finally:
        sock.close()
    say("Stopped.")


def _open_browser(address: str) -> None:
    """Open the page. A machine without a browser is no error: the address is in the terminal."""
    try:
        webbrowser.open(address)
    except Exception:  # whatever a desktop's own helper program does must not stop the server
        return
