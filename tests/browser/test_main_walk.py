"""Three phones and the office, offline and killed and started again: all agree, and the dossier holds."""

from __future__ import annotations

import json
import re
import subprocess
import zipfile
from pathlib import Path

import bagit
from playwright.sync_api import Browser, Page, expect

from bayleaf import demo_plan as plan
from browser import office_hand as office
from browser import phone_hand as hand
from browser import walk
from browser.demo_server import COMMAND, DemoServer
from browser.handset import Handset, OpenHandset


def test_three_phones_and_the_office_agree_and_the_dossier_can_be_checked(
    desk: Browser, demo: DemoServer, handset: OpenHandset, tmp_path: Path
) -> None:
    technician, photographer, second = (handset(demo.phone(slug)) for slug in plan.PHONES)
    ada = office.office_page(desk, demo)
    office.open_new_job(ada, walk.ORDER)
    for phone in (technician, photographer, second):
        phone.open()
        expect(phone.page.get_by_role("link", name=walk.ORDER).first).to_be_visible()
        phone.offline()

    begin_offline(technician)
    attach_offline(photographer.page)
    demo.stop()
    demo.start()
    office_decides(ada, technician, photographer)
    heat_offline(technician)
    demo.kill()
    demo.start()
    come_back(ada, technician, photographer, second)
    assert_all_agree(ada, technician, photographer, second)

    fingerprint = file_the_job(ada)
    dossier = office.download_dossier(ada, tmp_path / "walk.zip")
    check_dossier(dossier, fingerprint, tmp_path / "bag")


def begin_offline(technician: Handset) -> None:
    """Steps 1 to 3 without a network; the browser is killed in the middle of the voltage."""
    page = technician.page
    walk.open_walk(page)
    walk.book_in(page)
    hand.lead(page, "Choose")
    hand.tap(page, "Given", exact=True)
    hand.lead(page, "Go on with step 3")
    page.reload()
    walk.prove_dead(page)
    before = hand.hashes(page)
    technician.kill()
    page = technician.open(offline=True)
    assert hand.hashes(page) == before
    walk.open_walk(page)
    hand.lead(page, "Go on with step 3")
    walk.strike_own(page, "7.5", "Wrong stud: measured again.")
    walk.sign_dead(page)


def attach_offline(page: Page) -> None:
    """The photographer takes what is wanted now, one that comes later and one more, and ticks nothing."""
    walk.open_walk(page)
    hand.heading(page, "One photo wanted")
    hand.lead(page, "Take the first")
    hand.photo(page, "Bracket")
    hand.heading(page, "No photo is wanted now")
    page.get_by_text(re.compile("^Later: ")).click()
    page.locator(".wanted-later .slot").first.click()
    hand.photo(page, "Pads")
    hand.heading(page, "No photo is wanted now")
    hand.tap(page, "Photo without a slot")
    hand.photo(page, "Row of rivets")
    hand.heading(page, "No photo is wanted now")
    expect(page.get_by_role("button", name=re.compile("Done|Record"))).to_have_count(0)
    hand.glance(page, "6 on this phone")


def office_decides(ada: Page, technician: Handset, photographer: Handset) -> None:
    """It sees what arrives, admits, strikes, sends back and signs; what was sent back is made again."""
    for phone in (photographer, technician):
        phone.offline(off=False)
        hand.all_sent(phone.page)
    ada.reload()
    office.sees(ada, "Time line", "The key of the sliding door is missing.")
    office.assign(ada, f"Take {plan.PHOTOGRAPHER.name} off")
    hand.sync_now(photographer.page)
    hand.tap(photographer.page, "Photo without a slot")
    hand.photo(photographer.page, "Bracket")
    hand.sync_now(photographer.page)
    office.act(ada, re.compile("^Admit "), "Admit it", "Pim was at the car with us.")
    office.assign(ada, f"Assign {plan.PHOTOGRAPHER.name}")
    office.act(ada, re.compile("^Strike: Note"), "Strike it", "The key was found on the desk.")
    office.act(
        ada, re.compile("^Send back: .*DEMO0000000000007"), "Send it back", "Read it again, from the body."
    )
    office.act(ada, re.compile("^Countersign Agree the repair"), "Countersign it")
    page = technician.page
    page.get_by_role("link", name="All steps").click()
    page.get_by_role("link", name=re.compile("Book the van in")).click()
    expect(page.get_by_text("Sent back by the office: Read it again, from the body.")).to_be_visible(
        timeout=30_000
    )
    hand.tap(page, "VIN read from the body")
    hand.write(page, "DEMO0000000000008", "Record text")
    hand.lead(page, "To the next act")
    expect(page.get_by_role("heading", name="Agree the repair")).to_be_visible()
    hand.done(page)


def heat_offline(technician: Handset) -> None:
    """Steps 4 to 12 by the switch of the demo and without a network; the browser is killed in the soak."""
    page = technician.page
    hand.shop_network(page, on=False)
    walk.put_on_stands(page)
    walk.take_rivets_out(page)
    technician.offline()
    walk.account(page)
    walk.place_pads(page)
    walk.clear_to_switch_on(page)
    walk.switch_on(page)
    walk.soak(technician)
    technician.kill()
    page = technician.open(offline=True)
    hand.lead(page, f"Go on with {walk.ORDER}")  # the band that says what is due comes a moment later
    hand.lead(page, "Open the heat run")
    hand.lead(page, "Soaked")
    hand.lead(page, "Workable")
    hand.tap(page, "Go on with step 10")
    walk.part_joint(page)
    page.locator(".run-band").first.click()
    walk.release_and_cool(technician)
    hand.lead(page, "To the next act")
    hand.done(page)
    walk.not_applicable(page)
    walk.look_and_close(page)


def come_back(ada: Page, technician: Handset, photographer: Handset, second: Handset) -> None:
    """Everybody hears; the second technician signs the end on a phone of their own."""
    second.offline(off=False)
    technician.offline(off=False)
    hand.shop_network(technician.page, on=True)
    hand.all_sent(technician.page)
    hand.sync_now(second.page)
    page = second.page
    walk.open_walk(page)
    hand.lead(page, "Countersign")
    hand.lead(page, "Oskar Teal signs")
    hand.heading(page, "Lift off, look and cover")
    hand.all_sent(page)
    hand.sync_now(photographer.page)
    hand.heading(photographer.page, "One photo wanted")
    hand.lead(photographer.page, "Take the first")
    hand.photo(photographer.page, "Pads")
    hand.heading(photographer.page, "No photo is wanted now")
    hand.all_sent(photographer.page)
    hand.sync_now(technician.page)
    hand.heading(technician.page, "Lift off, look and cover")
    hand.done(technician.page)
    hand.all_sent(technician.page)


def assert_all_agree(ada: Page, *phones: Handset) -> None:
    """The same entries, the same digest of the folded state, and nothing in the office's log."""
    sets, digests = [], []
    for phone in phones:
        digests.append(hand.state_digests(phone.page))
        sets.append(hand.hashes(phone.page))
    assert sets[0] == sets[1] == sets[2]
    assert digests[0] == digests[1] == digests[2]
    ada.get_by_role("link", name="Office log").click()
    expect(ada.get_by_text("Nothing is reported.")).to_be_visible()


def file_the_job(ada: Page) -> str:
    """Accept what is left, close, and file; the fingerprint of the seal, as the office shows it."""
    ada.get_by_role("link", name="Board").click()
    office.open_job(ada, walk.ORDER)
    office.accept_all(ada)
    office.act(ada, "Close the job", "Close it")
    return office.file_it(ada)


def check_dossier(dossier: Path, fingerprint: str, folder: Path) -> None:
    """By the command, which needs no server, and by the library of the archives."""
    words = [str(COMMAND), "dossier", "check", str(dossier), "--json", "--seal", fingerprint]
    told = json.loads(subprocess.run(words, capture_output=True, check=True).stdout)
    assert told["intact"] is True
    assert told["seal"] == "sealed by this fingerprint"
    with zipfile.ZipFile(dossier) as archive:
        archive.extractall(folder)
    root = next(one.parent for one in folder.rglob("bagit.txt"))
    bagit.Bag(str(root)).validate()
