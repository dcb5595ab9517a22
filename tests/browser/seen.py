"""What a screen may not do to those who see badly, read with gloves on or hold a small phone."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

from playwright.sync_api import Page, ViewportSize

AXE = Path(__file__).parents[2] / "web" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
SMALL: ViewportSize = {"width": 360, "height": 640}
USUAL: ViewportSize = {"width": 390, "height": 844}
SCHEMES: tuple[Literal["light", "dark"], ...] = ("light", "dark")
KEY_PX, MAIN_KEY_PX = 44, 56
# Between light and dark only colours differ.
RUNS = {"light": {"type": "tag", "values": RULES}, "dark": {"type": "rule", "values": ["color-contrast"]}}

RUN_AXE = """async ([within, only]) => {
  const found = await axe.run(within || document, {
    runOnly: only,
    resultTypes: ['violations'],
  })
  return found.violations.map(({ id, nodes }) => ({
    id,
    at: nodes.map(({ target, any, all, none }) =>
      `${target.join(' ')}: ${[...any, ...all, ...none].map(({ message }) => message).join('; ')}`),
  }))
}"""

TOO_WIDE = """() => {
  const room = document.documentElement.clientWidth
  const rolls = (one) =>
    one !== null && (/auto|scroll/.test(getComputedStyle(one).overflowX) || rolls(one.parentElement))
  return [...document.querySelectorAll('#app *')]
    .filter((one) => one.getBoundingClientRect().right > room + 0.5 && one.checkVisibility() && !rolls(one))
    .map((one) => `${one.tagName.toLowerCase()} ${one.textContent.trim().slice(0, 40)}`)
}"""

TOO_SMALL = """([least, main]) => {
  const inside = 'button, a[href], input, select, textarea, summary, .file-key, [role=option], [role=switch]'
  const small = []
  for (const one of document.querySelectorAll(inside)) {
    const { width, height } = one.getBoundingClientRect()
    const { display } = getComputedStyle(one) // a link in a line of words is as high as the line
    const hidden = one.matches('input[type=file]') || !one.checkVisibility({ visibilityProperty: true })
    // What takes no finger is no target: the fastener map itself takes the position nearest to a tap.
    const option = one.matches('[role=option]') && getComputedStyle(one).pointerEvents === 'none'
    if (hidden || option || width <= 1 || display === 'inline') continue
    const need = one.matches('.key-large') ? main : least
    if (height < need || width < least)
      small.push(`${one.textContent.trim() || one.ariaLabel || one.tagName}: ${width} x ${height}`)
  }
  return small
}"""


def rules_broken(page: Page, within: str = "") -> list[str]:
    """Of the accessibility guidelines, in light and in dark, on the page as it stands, or on a part of it."""
    if not page.evaluate("'axe' in globalThis"):
        page.evaluate(AXE.read_text(encoding="utf-8") + "; true")
    found = []
    for scheme in SCHEMES:
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        broken: list[dict[str, Any]] = page.evaluate(RUN_AXE, [within, RUNS[scheme]])
        found += [f"{scheme}: {one['id']} {at}" for one in broken for at in one["at"]]
    page.emulate_media(color_scheme="light")
    return found


def too_wide(page: Page) -> list[str]:
    """What reaches over the right edge, so that the page scrolls sideways."""
    found = []
    for size in (SMALL, USUAL):
        show_at(page, size)
        found += [f"{size['width']} px: {what}" for what in page.evaluate(TOO_WIDE)]
    return found


def too_small(page: Page) -> list[str]:
    """Keys that a thumb in a glove would miss."""
    show_at(page, SMALL)
    found: list[str] = page.evaluate(TOO_SMALL, [KEY_PX, MAIN_KEY_PX])
    return found


def show_at(page: Page, size: ViewportSize) -> None:
    """Only if it is not: each change draws the page anew, and there are hundreds of pages."""
    if page.viewport_size != size:
        page.set_viewport_size(size)
