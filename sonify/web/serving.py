"""Starting and stopping: the sockets, the browser, and the lines that the terminal shows."""

from __future__ import annotations

import errno
import os
import socket
import sys
import threading
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from http import HTTPStatus
from pathlib import Path

import uvicorn

from sonify.errors import SonifyError
from sonify.page.document import told
from sonify.records.fact import wrong
from sonify.storage.scratch import scratch_folder
from sonify.web.app import Server, application
from sonify.web.connections import patient
from sonify.web.errors import Refused
from sonify.web.memory import settle
from sonify.web.sharing import Door, new_code, printed_code

#: How the server's temporary folder is called, for packs while they are made and until they are fetched.
PREFIX = "sonify-serve-"


@contextmanager
def _room() -> Iterator[Path]:
    with ExitStack() as opened:
        try:
            folder = opened.enter_context(scratch_folder(PREFIX))
        except OSError as error:
            message = wrong("error_web-room-temporary-files", strerror=error.strerror)
            raise Refused(HTTPStatus.INSUFFICIENT_STORAGE, message) from None
        yield folder


LOOPBACK = "127.0.0.1"


def bound_socket(address: str, port: int) -> socket.socket:
    """A socket at an address; port 0 takes a free one. Raises SonifyError where it cannot be had."""
    if not 0 <= port <= 65_535:
        raise SonifyError(wrong("error_web-port-port-number", port=port))
    sock = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name != "nt":  # there it would let two servers have one port
        sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        sock.bind((address, port))
        sock.listen(128)
    except OSError as error:
        sock.close()
        if error.errno == errno.EADDRINUSE:
            why = wrong("error_web-port-in-use")
        elif error.errno == errno.EACCES:
            why = wrong("error_web-port-kept")
        else:
            why = wrong("error_web-port-not-had", strerror=error.strerror)
        raise SonifyError(wrong("error_web-port-choose-another", port=port, why=why)) from None
    return sock


def network_address() -> str:
    """This machine's address on the network, "" where it has none. Nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe, suppress(OSError):
        probe.connect(("192.0.2.1", 9))  # an address for documentation (RFC 5737): a datagram socket only looks it up
        found = str(probe.getsockname()[0])
        return "" if found.startswith("127.") else found
    return ""


def own_names(port: int, *others: str) -> list[str]:
    """The Host headers by which this server is reached."""
    names = [LOOPBACK, "localhost", "[::1]", *filter(None, others)]
    return [f"{name}:{port}" for name in names] + (names if port == 80 else [])


def serve(port: int, *, browser: bool, share: bool, say: Callable[[str], None]) -> None:
    """Serve until Ctrl-C. Raises SonifyError where the port cannot be had."""
    sock = bound_socket("0.0.0.0" if share else LOOPBACK, port)
    settle()
    with sock, _room() as folder:
        port = sock.getsockname()[1]
        others = [network_address(), socket.gethostname()] if share else []
        door = Door(new_code() if share else "")
        server = Server(folder, door)
        _keep_runs(str(folder / "runs"))
        config = uvicorn.Config(
            application(server, own_names(port, *others)),
            log_level="warning",
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=2,
            timeout_keep_alive=30,
            limit_concurrency=400,
            http=patient,  # type: ignore[arg-type]  # it is only ever called
        )
        address = f"http://{LOOPBACK}:{port}/"
        say(told("server-page-is-at", address=address))
        if share:
            say(told("server-shared"))
            other = server.takes.elsewhere = f"http://{others[0] or others[1]}:{port}/"
            say(told("server-other-machines", address=other, code=printed_code(door.code)))
            say(told("server-no-screen"))
        if browser:
            threading.Thread(target=_open_browser, args=(address,), daemon=True).start()
        with suppress(KeyboardInterrupt):
            config.load()  # here, where an interruption leaves nothing half begun
            uvicorn.Server(config).run(sockets=[sock])
    say(told("server-stopped"))


def _keep_runs(folder: str) -> None:
    """Runs of the particle box are handed over through the cache: where it is turned off, a temporary one serves."""
    if os.environ.get("SONIFY_CACHE") == "":
        os.environ["SONIFY_CACHE"] = folder


def _open_browser(address: str) -> None:
    """Open the page. A machine without a browser is no error: the address is in the terminal."""
    try:
        webbrowser.open(address)
    except Exception as error:  # whatever a desktop's own helper program does must not stop the server
        print(told("server-no-browser", error=str(error)), file=sys.stderr)
