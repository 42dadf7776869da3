"""The preview: this machine only, from memory, made anew on change, with one external script more."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from http.client import HTTPConnection
from pathlib import Path

import pytest

from benchlore.errors import BenchloreError
from benchlore.publish.preview import HOST, RELOAD_SCRIPT, STATE, Preview
from benchlore.publish.render import POLICY
from benchlore.read.base import Base
from tests.publish.conftest import entry
from tests.publish.reading import read_html


@pytest.fixture
def preview(base_with: Callable[..., Path]) -> Iterator[Preview]:
    told: list[str] = []
    made = Preview(Base(base_with({"one": entry("One")})), port=0, tell=told.append)
    made.told = told
    thread = threading.Thread(target=lambda: made.serve(watch=False))
    thread.start()
    yield made
    made.stop()
    thread.join(timeout=5)
    assert not thread.is_alive()


def ask(preview: Preview, path: str, method: str = "GET") -> tuple[int, dict[str, str], str]:
    host, port = preview.address.removeprefix("http://").rstrip("/").split(":")
    connection = HTTPConnection(host, int(port), timeout=5)
    connection.request(method, path)
    answer = connection.getresponse()
    body = answer.read().decode()
    connection.close()
    return answer.status, {k.lower(): v for k, v in answer.getheaders()}, body


def test_it_listens_on_this_machine_alone(preview: Preview) -> None:
    assert preview.address.startswith(f"http://{HOST}:")
    assert HOST == "127.0.0.1"


def test_pages_come_with_the_reload_script_and_keep_the_policy(preview: Preview) -> None:
    status, headers, body = ask(preview, "/e/one.html?x=1")
    page = read_html(body)
    assert status == 200
    assert headers["content-type"] == "text/html; charset=utf-8"
    assert headers["cache-control"] == "no-store"
    assert [s.attributes["src"] for s in page.all("script")][-1] == f"../{RELOAD_SCRIPT}"
    assert any(m.attributes.get("content") == POLICY for m in page.all("meta"))
    assert ask(preview, "/")[2].count(RELOAD_SCRIPT) == 1


def test_styles_scripts_and_state_come_with_their_types(preview: Preview) -> None:
    assert ask(preview, "/styles/site.css")[1]["content-type"] == "text/css; charset=utf-8"
    assert ask(preview, f"/{RELOAD_SCRIPT}")[1]["content-type"] == "text/javascript; charset=utf-8"
    assert json.loads(ask(preview, f"/{STATE}")[2]) == {"state": 0}


def test_head_has_no_body(preview: Preview) -> None:
    status, headers, body = ask(preview, "/e/one.html", "HEAD")
    assert (status, body) == (200, "")
    assert int(headers["content-length"]) > 1000


@pytest.mark.parametrize(
    "path", ["/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/e/gone.html", "//etc/passwd", "/e/"]
)
def test_what_is_not_of_the_site_is_not_found(preview: Preview, path: str) -> None:
    status, _, body = ask(preview, path)
    assert status == 404
    page = read_html(body)
    assert page.one("h1").text == "There is no such page"
    assert all(link.attributes["href"].startswith("/") for link in page.all("link"))


def test_a_change_makes_the_site_anew(preview: Preview, tmp_path: Path) -> None:
    file = tmp_path / "base" / "entries" / "dehumidifier" / "two.yaml"
    file.write_text(entry("Two"), encoding="utf-8")
    assert preview.refresh()
    assert "Two" in ask(preview, "/e/two.html")[2]
    assert json.loads(ask(preview, f"/{STATE}")[2]) == {"state": 1}
    assert not preview.refresh(), "nothing changed since"


def test_a_broken_setting_keeps_the_old_site(preview: Preview, tmp_path: Path) -> None:
    shop = tmp_path / "base" / "site_config" / "shop.yaml"
    good = shop.read_text(encoding="utf-8")
    shop.write_text("name: [", encoding="utf-8")
    assert not preview.refresh()
    assert "shop.yaml" in preview.told[-1]
    assert ask(preview, "/e/one.html")[0] == 200
    shop.write_text(good + "\n", encoding="utf-8")
    assert preview.refresh()


def test_a_taken_port_is_explained(preview: Preview, tmp_path: Path) -> None:
    port = int(preview.address.rstrip("/").rsplit(":", 1)[1])
    with pytest.raises(BenchloreError, match=f"port {port} cannot be used") as error:
        Preview(Base(tmp_path / "base"), port=port, tell=print)
    assert "--port" in error.value.hint
