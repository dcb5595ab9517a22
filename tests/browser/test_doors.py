"""Who is let in, by what, and what those see who are not: a shop of its own, from its first start on."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Route, expect

from browser import office_hand
from browser import phone_hand as hand
from browser import shop as hall
from browser.shop import ORDER, Shop


@pytest.fixture(scope="module")
def shop(desk: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """One shop for all of this file: each test brings phones of its own."""
    server = hall.served(tmp_path_factory.mktemp("shop"))
    server.start()
    try:
        yield hall.open_shop(desk, server)
    finally:
        server.kill()


@pytest.fixture(autouse=True)
def nothing_was_thrown(shop: Shop) -> Iterator[None]:
    yield
    assert shop.faults == []


def test_a_phone_is_let_in_by_a_typed_code_and_four_digits_and_works(shop: Shop) -> None:
    code = shop.make_code()
    phone = shop.phone()
    hall.type_code(phone, f"{code[:4]} {code[4:]}".lower(), "bay 1, Tess")
    digits = hall.check_digits(phone)
    assert re.fullmatch(r"\d{4}", digits)
    phone.reload()
    assert hall.check_digits(phone) == digits

    shop.let_in("bay 1, Tess", digits)

    hand.tap(phone, f"Go on with {ORDER}")
    hand.heading(phone, "Book the van in")
    hand.lead(phone, "Write")
    hand.write(phone, "DEMO0000000000007", "Record text")
    hand.glance(phone, "All at the office")
    shop.go("")
    office_hand.open_job(shop.office, ORDER)
    office_hand.sees(shop.office, "Time line", "DEMO0000000000007")


def test_a_mistyped_code_says_what_is_wrong_before_and_after_it_is_sent(shop: Shop) -> None:
    phone = shop.phone()
    for typed, said in (
        ("", "Type the code first."),
        ("ABC", "eight characters; three are here"),
        ("ABCDEFG0", "0: not used"),
    ):
        hall.type_code(phone, typed, "bay 9")
        expect(phone.get_by_role("alert")).to_contain_text(said)
    hall.type_code(phone, "ABCDEFGH", "")
    expect(phone.get_by_role("alert")).to_contain_text("Give the phone a name first.")

    hall.type_code(phone, "ABCDEFGH", "bay 9")

    hand.heading(phone, "This code is not known")
    phone.get_by_role("button", name="Type a new code").click()
    hand.heading(phone, "Pair this phone")


def test_a_used_code_lets_nobody_else_in(shop: Shop) -> None:
    code = shop.make_code()
    first, second = shop.phone(), shop.phone()
    hall.type_code(first, code, "bay 2, first")
    shop.let_in("bay 2, first", hall.check_digits(first))

    hall.type_code(second, code, "bay 2, second")

    hand.heading(second, "This code is used")


def test_an_expired_code_lets_nobody_in(shop: Shop) -> None:
    code = shop.make_code()
    expire_codes(shop.server.data)
    phone = shop.phone()

    hall.type_code(phone, code, "bay 3")

    hand.heading(phone, "This code has expired")
    expect(phone.get_by_text("A code is good for 15 minutes.")).to_be_visible()


def test_a_phone_that_the_office_refuses_is_told_and_may_come_with_a_new_code(shop: Shop) -> None:
    phone = shop.phone()
    hall.type_code(phone, shop.make_code(), "bay 4")
    hall.check_digits(phone)
    shop.office.get_by_role("button", name="Refuse bay 4").click()

    hand.heading(phone, "The office did not let this phone in")
    phone.get_by_role("button", name="Type a new code").click()
    hall.type_code(phone, shop.make_code(), "bay 4")
    shop.let_in("bay 4", hall.check_digits(phone))
    expect(phone.get_by_role("link", name=f"Go on with {ORDER}")).to_be_visible()


def test_a_code_typed_out_of_reach_of_the_office_is_told_so_and_stays_typed(shop: Shop) -> None:
    code = shop.make_code()
    phone = shop.phone()
    phone.context.set_offline(True)

    hall.type_code(phone, code, "bay 5")

    expect(phone.get_by_role("alert")).to_contain_text("The office did not answer. The code is not spent")
    phone.context.set_offline(False)
    phone.get_by_role("button", name="Pair this phone").click()
    shop.let_in("bay 5", hall.check_digits(phone))


def test_an_answer_that_is_lost_on_its_way_does_not_lose_the_code(shop: Shop) -> None:
    code = shop.make_code()
    phone = shop.phone()
    phone.route("**/api/pair/claim", lose_the_answer, times=1)
    hall.type_code(phone, code, "bay 8")
    expect(phone.get_by_role("alert")).to_contain_text("The office did not answer.")

    phone.get_by_role("button", name="Pair this phone").click()

    shop.let_in("bay 8", hall.check_digits(phone))


def test_a_revoked_phone_keeps_its_records_and_offers_the_hand_in(shop: Shop, tmp_path: Path) -> None:
    phone = shop.paired_phone("bay 6")
    hand.pull_network(phone)
    hand.tap(phone, f"Go on with {ORDER}")
    hand.tap(phone, "Note", exact=True)
    hand.write(phone, "Only on this phone.", "Record note")
    hand.glance(phone, "1 on this phone")
    revoke(shop, "bay 6")

    phone.context.set_offline(False)

    band = phone.get_by_role("status").filter(has_text="This phone was taken off by the office")
    expect(band).to_be_visible()
    hand.tap(phone, "Hand in as a file")
    hand.heading(phone, "Hand in as a file")
    expect(phone.get_by_text("1 record and 0 photos are only on this phone.")).to_be_visible()
    with phone.expect_download() as saving:
        hand.lead(phone, "Save the file")
    file = tmp_path / saving.value.suggested_filename
    saving.value.save_as(file)
    assert b"Only on this phone." in file.read_bytes()
    phone.reload()
    expect(phone.get_by_text("1 record and 0 photos are only on this phone.")).to_be_visible()
    hand.heading(phone, "Hand in as a file")


def test_a_revoked_phone_is_let_in_again_by_a_new_code(shop: Shop) -> None:
    phone = shop.paired_phone("bay 7")
    revoke(shop, "bay 7")
    phone.reload()

    hand.tap(phone, "Begin anew on this phone")

    hall.type_code(phone, shop.make_code(), "bay 7 again")
    shop.let_in("bay 7 again", hall.check_digits(phone))
    expect(phone.get_by_role("link", name=f"Go on with {ORDER}")).to_be_visible()


def test_a_wrong_password_of_the_office_is_told_and_nothing_is_shown(shop: Shop) -> None:
    office = shop.desk.new_context().new_page()
    office.goto(f"{shop.server.url}/office")
    office.get_by_role("textbox", name="Name").fill("First office")
    office.get_by_label("Password").fill("not this one")

    office.get_by_role("button", name="Sign in").click()

    expect(office.get_by_role("alert")).to_contain_text("Name and password do not fit together.")
    expect(office.get_by_role("navigation", name="Office")).to_have_count(0)


def revoke(shop: Shop, name: str) -> None:
    shop.go("devices")
    shop.office.get_by_role("button", name=f"Revoke {name}").click()
    shop.office.get_by_role("dialog").get_by_role("button", name="Revoke it").click()
    revoked = shop.office.get_by_role("table", name="Revoked")
    expect(revoked.get_by_role("row").filter(has_text=name)).to_be_visible()


def lose_the_answer(route: Route) -> None:
    """The office has heard, and the phone does not hear it."""
    route.fetch()
    route.abort()


def expire_codes(data: Path) -> None:
    """As if their 15 minutes had gone by."""
    with closing(sqlite3.connect(data / "bayleaf.sqlite3", timeout=10)) as store, store:
        store.execute("UPDATE pair_code SET expires_ms = 1")
