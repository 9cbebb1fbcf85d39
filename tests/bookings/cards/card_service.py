"""A stand-in for the card service on this computer, and messages as it sends them, signed by its own library.

The shapes of its objects are those of its public reference (session, refund, dispute, event), cut down to what counts.
"""

import json
import threading
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs

import stripe

from tests.builders import NOW

SECRET, OLDER_SECRET = "whsec_the-one-in-use", "whsec_the-one-before"
PAGES = "https://pages.example.org"
ON = {"CARD_KEY": "sk_test_invented", "CARD_SIGNING_SECRETS": [SECRET], "CARD_PAGES": PAGES}


def event(type_, about, *, name="evt_1", at=NOW):
    """A message about an object, as its bytes."""
    facts = {"id": name, "type": type_, "created": int(at.timestamp()), "data": {"object": about}}
    return json.dumps({"object": "event"} | facts).encode()


def session(name="cs_1", *, amount=4250, currency="eur", money="pi_1", reference="", status="paid"):
    return {
        "object": "checkout.session", "id": name, "amount_total": amount, "currency": currency,
        "client_reference_id": reference or None, "payment_intent": money, "payment_status": status,
    }  # fmt: skip


def refund(name="re_1", *, amount=1000, currency="eur", money="pi_1", status="succeeded", page=None):
    facts = {"id": name, "amount": amount, "currency": currency, "payment_intent": money, "status": status}
    return {"object": "refund", "metadata": {"session": page} if page else {}} | facts


def dispute(*, amount=4250, currency="eur", money="pi_1"):
    return {
        "object": "dispute",
        "id": "dp_1",
        "amount": amount,
        "currency": currency,
        "payment_intent": money,
    }


def signature(body, *, secret=SECRET, at=NOW):
    return stripe.WebhookSignature.generate_signature_header(body.decode(), secret, int(at.timestamp()))


class StandIn(ThreadingHTTPServer):
    """Answers as the card service does: the same key the same answer, another request under it a refusal."""

    daemon_threads = True

    def __init__(self):
        super().__init__(("127.0.0.1", 0), Answer)
        self.asked, self.answers, self.status, self.pages = [], {}, 200, PAGES
        self.refund_status = "succeeded"
        self.paid_pages = {}

    @property
    def address(self):
        return f"http://127.0.0.1:{self.server_port}"

    def answer(self, path, facts, key):
        self.asked.append((path, facts, key))
        if self.status != 200:
            return self.status, {"error": {"type": "api_error", "message": "out of order"}}
        before = self.answers.setdefault(key, (facts, self._made(path, facts)))
        if before[0] != facts:
            return 400, {"error": {"type": "idempotency_error", "message": "another request under this key"}}
        return 200, before[1]

    def told_of(self, name):
        """What became of a page: `paid_pages` holds those that were paid, or what is answered instead."""
        self.asked.append((name, {}, None))
        if self.status != 200:
            return self.status, {"error": {"type": "api_error", "message": "out of order"}}
        return 200, self.paid_pages.get(name, session(name, status="unpaid"))

    def _made(self, path, facts):
        number = len(self.answers) + 1
        if path == "/v1/refunds":
            return refund(
                f"re_{number}",
                amount=int(facts["amount"]),
                money=facts["payment_intent"],
                status=self.refund_status,
                page=facts["metadata[session]"],
            ) | {"created": int(NOW.timestamp())}
        name = f"cs_{number}"
        return {
            "object": "checkout.session",
            "id": name,
            "url": f"{self.pages}/pay/{name}",
            "expires_at": int(facts["expires_at"]),
        }


class Answer(BaseHTTPRequestHandler):
    def do_GET(self):
        """The page to pay on; or what came by one, for who asks at the service's own address."""
        if self.path.startswith("/v1/checkout/sessions/"):
            return self._send(*self.server.told_of(self.path.rpartition("/")[2]))
        page = b"<!doctype html><html lang=en><title>Card service</title><h1>Pay here</h1></html>"
        return self._written(200, "text/html", page)

    def do_POST(self):
        told = parse_qs(self.rfile.read(int(self.headers["Content-Length"])).decode())
        facts = {name: values[0] for name, values in told.items()}
        self._send(*self.server.answer(self.path, facts, self.headers["Idempotency-Key"]))

    def _send(self, status, answer):
        self._written(status, "application/json", json.dumps(answer).encode())

    def _written(self, status, kind, body):
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Stripe-Should-Retry", "false")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *words):
        """Say nothing."""


def keyed(settings):
    """The settings, with a key and a secret of the card service in them."""
    for name, value in ON.items():
        setattr(settings, name, value)
    return settings


@contextmanager
def switched_on(settings):
    """Cards, switched on in the settings with a card service of one's own while the block runs."""
    with stand_in() as service:
        keyed(settings).CARD_API = service.address
        yield service


@contextmanager
def stand_in():
    """A card service of one's own while the block runs."""
    with StandIn() as service:
        runner = threading.Thread(target=service.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True)
        runner.start()
        try:
            yield service
        finally:
            service.shutdown()
            runner.join()
