"""Labels of drawings, measured in a browser with the real fonts and the rules of drawing.css."""

import base64
import re

from tests.layout import ROOT

STATIC = ROOT / "structures" / "static" / "structures"

# A label is a line of words, a disc with a letter or number, or a flag. Words take the height of capitals and figures
# above their line and of a `g` below it; turned words are measured as they stand. What lies in a disc belongs to it.
MEASURE = """() => {
  const CAPITAL = 0.72, BELOW = 0.2, SLACK = 0.5;
  const corners = (one, x0, y0, x1, y1) => {
    const m = one.getCTM();
    return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]].map(([x, y]) => [m.a * x + m.c * y + m.e, m.b * x + m.d * y + m.f]);
  };
  const words = (one) => {
    const box = one.getBBox(), size = parseFloat(getComputedStyle(one).fontSize), base = Number(one.getAttribute('y') || 0);
    return {name: one.textContent, at: corners(one, box.x, base - CAPITAL * size, box.x + box.width, base + BELOW * size)};
  };
  const shape = (one) => {
    const box = one.getBBox();
    return {name: one.getAttribute('class'), shape: true, at: corners(one, box.x, box.y, box.x + box.width, box.y + box.height),
      round: one.tagName === 'circle'};
  };
  const axes = (box) => [0, 1].map((i) => {
    const [ax, ay] = box.at[i], [bx, by] = box.at[i + 1], length = Math.hypot(bx - ax, by - ay) || 1;
    return [(bx - ax) / length, (by - ay) / length];
  });
  const along = (box, [x, y]) => box.at.map(([px, py]) => px * x + py * y);
  const middle = (box) => [0, 1].map((i) => (box.at[0][i] + box.at[2][i]) / 2);
  const radius = (box) => Math.hypot(box.at[1][0] - box.at[0][0], box.at[1][1] - box.at[0][1]) / 2;
  const meet = (a, b) => {
    if (a.round && b.round) {
      const [p, q] = [middle(a), middle(b)];
      return Math.hypot(p[0] - q[0], p[1] - q[1]) < radius(a) + radius(b) - SLACK && p.join() !== q.join();
    }
    return [...axes(a), ...axes(b)].every((axis) => {
      const [one, two] = [along(a, axis), along(b, axis)];
      return Math.min(...one) < Math.max(...two) - SLACK && Math.min(...two) < Math.max(...one) - SLACK;
    });
  };
  const owns = (disc, label) => disc.shape && !label.shape
    && Math.hypot(...middle(disc).map((v, i) => v - middle(label)[i])) < (disc.round || !/^\\d+$/.test(label.name) ? 5 : 9);
  return [...document.querySelectorAll('svg')].flatMap((svg) => {
    const wrong = [], view = svg.viewBox.baseVal;
    const labels = [...[...svg.querySelectorAll('text')].map(words),
      ...[...svg.querySelectorAll('circle.mk, circle.mkq, circle.bub, .flag, .flag-again')].map(shape)];
    const scale = svg.getCTM().a || 1, wide = view.width, tall = view.height;
    labels.forEach((a, i) => {
      const xs = a.at.map((p) => p[0]), ys = a.at.map((p) => p[1]);
      if (Math.min(...xs) < -SLACK || Math.min(...ys) < -SLACK || Math.max(...xs) > wide + SLACK || Math.max(...ys) > tall + SLACK)
        wrong.push(`${svg.parentElement.id}: ${a.name} leaves the picture`);
      labels.slice(i + 1).forEach((b) => {
        if (!owns(a, b) && !owns(b, a) && meet(a, b)) wrong.push(`${svg.parentElement.id}: ${a.name} lies on ${b.name}`);
      });
    });
    return wrong;
  });
}"""


def page_of(pictures: dict[str, str]) -> str:
    """A page with the real fonts and the real rules of drawing.css, each picture at the width it was drawn for."""
    fonts = re.findall(r"@font-face \{.*?\}", (STATIC / "base.css").read_text())
    style = "\n".join([*fonts, (STATIC / "variables.css").read_text(), (STATIC / "drawing.css").read_text()])
    style = re.sub(r"url\((fonts/[^)]+)\)", lambda found: f"url({_as_data(found[1])})", style)
    shown = "".join(
        f'<div id="{name}" style="width:{re.search(r"viewBox=.0 0 ([0-9.]+)", svg)[1]}px">{svg}</div>' for name, svg in pictures.items()
    )
    return f"<!doctype html><style>{style}</style>{shown}"


def _as_data(path: str) -> str:
    return "data:font/woff2;base64," + base64.b64encode((STATIC / path).read_bytes()).decode()


def wrong_labels(page, pictures: dict[str, str]) -> list[str]:
    page.set_content(page_of(pictures))
    page.evaluate("() => document.fonts.ready")
    assert page.evaluate("() => document.fonts.check('500 13px \"Plex Condensed\"') && [...document.fonts].length === 3")
    return page.evaluate(MEASURE)
