"""A phone asks to be called, the office sees it, and a call shows on the locked screen what is due."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect

from browser.demo_server import DemoServer
from browser.office_hand import office_page
from harness.push_service import browser as push_keys

ENDPOINT = "https://push.example/one"
RUN = "/job/10000000-0000-4000-8000-000000000001/run/ab12"
MARAS = "technician"
PHONE: ViewportSize = {"width": 390, "height": 844}
# No push service is reached from here: the browser's half answers as one that has been given an address.
SUBSCRIBES = """
(() => {
  let held = null
  const made = (key) => ({
    options: { applicationServerKey: key },
    toJSON: () => ({ endpoint: '%s', keys: { p256dh: '%s', auth: 'AAECAwQFBgcICQoLDA0ODw' } }),
    unsubscribe: async () => { held = null; return true },
  })
  const bytes = (text) => Uint8Array.from(
    atob(text.replaceAll('-', '+').replaceAll('_', '/')), (one) => one.charCodeAt(0)).buffer
  PushManager.prototype.subscribe = async (asked) => (held = made(bytes(asked.applicationServerKey)))
  PushManager.prototype.getSubscription = async () => held
})()
"""


@pytest.fixture
def context(desk: Browser, demo: DemoServer) -> Iterator[BrowserContext]:
    made = desk.new_context(viewport=PHONE)
    made.grant_permissions(["notifications"], origin=demo.phone(MARAS).rstrip("/"))
    made.add_init_script(SUBSCRIBES % (ENDPOINT, push_keys().p256dh))
    yield made
    made.close()


def calls_page(context: BrowserContext, demo: DemoServer) -> Page:
    page = context.new_page()
    page.goto(demo.phone(MARAS))
    expect(page.locator("h1").first).to_be_visible(timeout=20_000)
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    page.goto(demo.phone(MARAS) + "phone/calls")
    expect(page.get_by_role("heading", name="What calls me")).to_be_visible()
    return page


def devices_page(desk: Browser, demo: DemoServer) -> Page:
    page = office_page(desk, demo)
    page.get_by_role("link", name="Devices").first.click()
    expect(page.get_by_role("heading", name="Calls to phones")).to_be_visible()
    return page


def test_a_phone_is_armed_once_the_office_gives_an_address_and_the_call_is_shown(
    desk: Browser, demo: DemoServer, context: BrowserContext
) -> None:
    phone = calls_page(context, demo)
    expect(phone.get_by_role("status").first).to_contain_text("the office has given no usable contact")
    office = devices_page(desk, demo)
    address = office.get_by_label("Contact address for push services")
    address.fill("calls@shop.local")
    office.get_by_role("button", name="Save the address").click()
    expect(office.get_by_role("alert").filter(has_text="reserved")).to_be_visible()
    address.fill("calls@shop.invented")
    office.get_by_role("button", name="Save the address").click()
    expect(office.get_by_text("Armed: calls go out under this contact address.")).to_be_visible()

    phone.reload()
    expect(phone.get_by_text("Not armed: nothing calls this phone.")).to_be_visible()
    runs = phone.get_by_role("button", name="Heat runs")
    expect(runs).to_have_attribute("aria-pressed", "false")
    runs.click()
    expect(phone.get_by_text("Armed. The office calls this phone")).to_be_visible()
    expect(runs).to_have_attribute("aria-pressed", "true")
    office.reload()
    expect(office.get_by_role("table", name="Calls to phones").get_by_text("heat runs")).to_be_visible()

    told = {"job": "10000000", "kind": "run", "act": "read", "moment": "due", "path": RUN}
    deliver(context, phone, demo, told)
    shown = phone.evaluate(
        """async () => {
          const registration = await navigator.serviceWorker.ready
          for (let turn = 0; turn < 100; turn += 1) {
            const [one] = await registration.getNotifications()
            if (one) return [one.title, one.body, one.data.path]
            await new Promise((go) => setTimeout(go, 50))
          }
          return []
        }"""
    )
    assert shown == ["Due now", "Heat run: read the sensors.", RUN]

    pictures = os.environ.get("BAYLEAF_PICTURES")
    if pictures:
        phone.screenshot(path=f"{pictures}/calls.png", full_page=True)
        office.screenshot(path=f"{pictures}/devices.png", full_page=True)

    runs.click()
    expect(phone.get_by_text("Not armed: nothing calls this phone.")).to_be_visible()
    office.reload()
    expect(office.get_by_text("No phone has asked to be called.")).to_be_visible()
    office.context.close()


def deliver(context: BrowserContext, page: Page, demo: DemoServer, told: dict[str, str]) -> None:
    """As the browser's push service hands it over, opened."""
    session = context.new_cdp_session(page)
    versions: list[dict[str, str]] = []
    session.on("ServiceWorker.workerRegistrationUpdated", lambda got: versions.extend(got["registrations"]))
    session.send("ServiceWorker.enable")
    while not versions:
        page.evaluate("() => new Promise((go) => setTimeout(go, 20))")
    session.send(
        "ServiceWorker.deliverPushMessage",
        {
            "origin": demo.phone(MARAS).rstrip("/"),
            "registrationId": versions[0]["registrationId"],
            "data": json.dumps(told),
        },
    )


def test_a_tapped_notice_leads_the_open_app_to_its_page(demo: DemoServer, context: BrowserContext) -> None:
    phone = calls_page(context, demo)
    phone.evaluate(
        """() => navigator.serviceWorker.dispatchEvent(
          new MessageEvent('message', { data: { type: 'show', path: '/records' } }))"""
    )
    expect(phone).to_have_url(demo.phone(MARAS) + "records")


def test_a_phone_that_forbids_notices_says_so_and_asks_the_office_nothing(
    desk: Browser, demo: DemoServer, tmp_path: Path
) -> None:
    context = desk.new_context(viewport=PHONE)
    context.add_init_script("Object.defineProperty(Notification, 'permission', { get: () => 'denied' })")
    phone = calls_page(context, demo)
    expect(phone.get_by_text("notices of this app are forbidden")).to_be_visible()
    expect(phone.get_by_role("button", name="Heat runs")).to_have_attribute("aria-disabled", "true")
    context.close()
