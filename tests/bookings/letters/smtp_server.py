"""A mail server in a thread, which speaks just enough of RFC 5321, or refuses to, or falls silent."""

import socketserver
import threading
from contextlib import contextmanager

from django.core.mail.utils import DNS_NAME

HANG = "hang"
DROP = "drop"
STEPS = {"EHLO": "hello", "HELO": "hello", "MAIL": "mail", "RCPT": "rcpt", "DATA": "data", "QUIT": "quit"}
USUAL = {
    "greeting": "220 letters are taken here",
    "hello": "250 good day",
    "mail": "250 go on",
    "rcpt": "250 go on",
    "data": "354 go on, and end with a dot",
    "body": "250 taken",
    "quit": "221 good bye",
}


class Talk(socketserver.StreamRequestHandler):
    def handle(self):
        self.server.calls += 1
        going_on = self.answer("greeting", "")
        while going_on and (line := self.rfile.readline()):
            said = line.decode().strip()
            step = STEPS.get(said[:4].upper(), "hello")
            going_on = self.answer(step, said) and step != "quit"
            if going_on and step == "data" and self.said.startswith("354"):
                going_on = self.take()

    def take(self):
        """Read a letter to its dot; a line that begins with one has been given another (RFC 5321, 4.5.2)."""
        lines = []
        while (line := self.rfile.readline()) not in {b".\r\n", b""}:
            lines.append(line.removeprefix(b".") if line.startswith(b"..") else line)
        letter = b"".join(lines)
        going_on = self.answer("body", letter.decode())
        if self.said.startswith("250"):
            self.server.taken.append(letter)
        return going_on

    def answer(self, step, said):
        """Answer as the server was told to; False when the talk ends with that."""
        reply = self.server.says.get(step, USUAL[step])
        self.said = reply = reply(said) if callable(reply) else reply
        if reply == HANG:
            self.server.while_hanging()
            self.server.over.wait(5)
        if reply in (HANG, DROP):
            return False
        self.wfile.write(f"{reply}\r\n".encode())
        return not reply.startswith("421")


class Server(socketserver.ThreadingTCPServer):
    """`says` maps a step of the talk to another reply than the usual one, or to a function of what was said."""

    allow_reuse_address = True
    daemon_threads = False

    def __init__(self):
        super().__init__(("127.0.0.1", 0), Talk)
        self.says, self.taken, self.calls = {}, [], 0
        self.over = threading.Event()
        self.while_hanging = lambda: None

    @property
    def port(self):
        return self.server_address[1]


@contextmanager
def mail_server():
    server = Server()
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02})
    thread.start()
    try:
        yield server
    finally:
        server.over.set()
        server.shutdown()
        thread.join()
        server.server_close()


@contextmanager
def in_use(settings, monkeypatch):
    """A server of one's own, to which the site brings its letters while the block runs."""
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.EMAIL_TIMEOUT = 0.2
    settings.EMAIL_HOST = "127.0.0.1"
    monkeypatch.setattr(DNS_NAME, "_fqdn", "rooms.example.org", raising=False)
    with mail_server() as server:
        settings.EMAIL_PORT = server.port
        yield server
