# SPDX-License-Identifier: Apache-2.0
"""What the tests of the guards share: the little bay, and a web server that says what it was asked."""
import sys
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import SOURCE, LittleBay as Guarded  # noqa: E402, F401

OUTSIDE = ('[crop]', '[run]\nallow = ["outside"]\n[crop]')


class Listener:
    """A web server on this machine that has nothing; `asked` is every request that reached it."""

    def __enter__(self):
        asked = self.asked = []

        class Answer(BaseHTTPRequestHandler):
            def do_GET(self):
                asked.append(f'{self.command} {self.path}')
                self.send_error(404)

            do_HEAD = do_POST = do_GET

            def log_message(self, *_):
                pass

        self.server = ThreadingHTTPServer(('127.0.0.1', 0), Answer)
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.address = f'http://127.0.0.1:{self.server.server_port}'
        return self

    def __exit__(self, *_):
        self.server.shutdown()
        self.server.server_close()
