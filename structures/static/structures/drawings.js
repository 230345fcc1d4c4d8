// The page of drawings: layers hide and show, a line of the kit lights its pieces and a piece its line, and the address
// always says what is seen. Another drawing, or another place to stand, changes picture and words at once. Without this file
// the same form does the same by its buttons.
(() => {
  "use strict";
  const form = document.querySelector("form[data-drawing]");
  if (!form) return;
  const figure = document.getElementById("drawing");
  const said = document.getElementById("said");
  const lines = () => [...form.querySelectorAll("button[data-part]")];
  const pieces = () => [...figure.querySelectorAll(".pc")];
  const seen = (piece) => piece.getClientRects().length > 0;
  const codeOf = (place) => place.split(":")[0];
  let asked = 0;
  // Till somebody ticks a layer, each view shows its own.
  let ticked = new URLSearchParams(window.location.search).has("chosen");

  for (const button of form.querySelectorAll("[data-without-script]")) button.hidden = true;

  // What is lit: a part, or the place of one piece or joint. A joint is of several parts: its band, bolt and nut.
  const partsOf = (piece) => piece.dataset.part.split(" ");
  const belongs = (piece, key) => Boolean(key) && (piece.dataset.id === key || partsOf(piece).includes(key));
  const lineOf = (key) => lines().find((line) => line.dataset.part === key)
    || lines().find((line) => line.dataset.places.split(" ").includes(key));

  // One piece that is seen is in the tab order; arrows go to the others. A drawing for another width waits with its first.
  function enter() {
    for (const svg of figure.querySelectorAll("svg")) {
      const all = [...svg.querySelectorAll(".pc")];
      const now = all.find((piece) => piece.getAttribute("tabindex") === "0");
      if (now && seen(now)) continue;
      if (now) now.setAttribute("tabindex", "-1");
      const first = all.find(seen) || all[0];
      if (first) first.setAttribute("tabindex", "0");
    }
  }

  // Every piece in the drawing that is seen can be touched.
  function dress() {
    for (const svg of figure.querySelectorAll("svg")) if (svg.querySelector(".pc")) svg.setAttribute("role", "group");
    for (const piece of pieces()) {
      const line = lineOf(partsOf(piece)[0]);
      piece.setAttribute("role", "button");
      piece.setAttribute("tabindex", "-1");
      piece.setAttribute("aria-label", `${codeOf(piece.dataset.id)}, ${line ? line.dataset.name : piece.dataset.part}`);
      for (const drawn of piece.querySelectorAll(".tube-o, .lit, .lit-s, .lit-far, .far, .tie, .sec, .dot, .conn")) {
        const reach = drawn.cloneNode();
        reach.setAttribute("class", "reach");
        piece.append(reach);
      }
    }
    enter();
  }

  function show(key, near = key) {
    for (const piece of pieces()) {
      piece.classList.toggle("is-lit", belongs(piece, key) || belongs(piece, near));
      piece.setAttribute("aria-pressed", String(belongs(piece, key)));
    }
    const line = key ? lineOf(key) : null;
    for (const one of lines()) {
      const pressed = one === line;
      one.setAttribute("aria-pressed", String(pressed));
      one.value = pressed ? "" : one.dataset.part;
      one.querySelector(".mark").classList.toggle("plain", !pressed);
    }
  }

  function tell(key) {
    const line = lineOf(key);
    if (!line) return;
    const all = pieces();
    const none = all.length > 0 && !all.some((piece) => belongs(piece, key));
    if (key !== line.dataset.part) {
      said.textContent = `${codeOf(key)}: ${line.dataset.name}, one of ${line.dataset.places.split(" ").length}.`;
    } else {
      said.textContent = line.dataset.said + (line.dataset.places && none ? " This view shows none of them." : "");
    }
  }

  const kept = () => form.querySelector("input[name=lit]").value;

  function query() {
    const data = new URLSearchParams(new FormData(form));
    data.delete("was");
    if (!data.get("lit")) data.delete("lit");
    if (!ticked) { data.delete("layer"); data.delete("chosen"); }
    return data;
  }

  function remember() {
    history.replaceState(null, "", `?${query()}`);
    for (const link of document.querySelectorAll("a[data-view]")) {
      const there = new URLSearchParams(link.getAttribute("href"));
      for (const name of ["lit", "layer", "chosen"]) {
        there.delete(name);
        for (const value of query().getAll(name)) there.append(name, value);
      }
      link.setAttribute("href", `?${there}`);
    }
  }

  // The page as the server makes it; null where no signal is, or where something else was asked since.
  async function fetched(address) {
    const turn = ++asked;
    try {
      const answer = await fetch(address, { headers: { Accept: "text/html" } });
      const page = answer.ok ? new DOMParser().parseFromString(await answer.text(), "text/html") : null;
      return turn === asked && page && page.getElementById("drawing") ? page : null;
    } catch {
      return null;
    }
  }

  function redraw(page) {
    const drawn = page.getElementById("drawing");
    figure.replaceChildren(...drawn.childNodes);
    figure.className = drawn.className;
    figure.dataset.lit = drawn.dataset.lit;
    dress();
    show(kept());
  }

  // With letters, rings and words for what is lit. Till it comes, lines alone are lit.
  async function drawAgain() {
    const page = await fetched(window.location.href);
    if (!page) return;
    const held = figure.contains(document.activeElement) ? document.activeElement.closest(".pc")?.dataset.id : null;
    redraw(page);
    if (held) take(pieces().find((piece) => piece.dataset.id === held && seen(piece)));
  }

  // Another drawing: everything on the page that follows it changes, and the focus stays where it was.
  async function turnTo(address, goesOn = true) {
    const before = asked;
    const page = await fetched(address);
    if (!page) {
      if (asked === before + 1) window.location.href = address;
      return;
    }
    const focus = document.activeElement?.id;
    for (const part of document.querySelectorAll("[data-follows]")) part.replaceChildren(...page.getElementById(part.id).childNodes);
    document.title = page.title;
    if (goesOn) history.pushState(null, "", address);
    redraw(page);
    if (kept()) tell(kept());
    remember();
    const held = focus && document.getElementById(focus);
    if (held) held.focus({ preventScroll: true });
  }

  function keep(key) {
    form.querySelector("input[name=lit]").value = key;
    show(key);
    if (key) tell(key);
    else said.textContent = "Nothing is lit.";
    remember();
    drawAgain();
  }

  function take(piece) {
    if (!piece) return;
    for (const other of piece.ownerSVGElement.querySelectorAll(".pc")) other.setAttribute("tabindex", "-1");
    piece.setAttribute("tabindex", "0");
    piece.focus({ preventScroll: true });
  }

  form.addEventListener("click", (event) => {
    const line = event.target.closest("button[data-part]");
    if (!line) return;
    event.preventDefault();
    keep(kept() === line.dataset.part ? "" : line.dataset.part);
    if (figure.getBoundingClientRect().bottom < 80) figure.scrollIntoView({ block: "start" });
  });
  form.addEventListener("focusin", (event) => {
    const line = event.target.closest("button[data-part]");
    if (line && line.matches(":focus-visible")) { show(kept(), line.dataset.part); tell(line.dataset.part); }
  });
  form.addEventListener("focusout", () => show(kept()));
  form.addEventListener("pointerover", (event) => {
    const line = event.target.closest("button[data-part]");
    if (line && event.pointerType === "mouse") show(kept(), line.dataset.part);
  });
  form.addEventListener("pointerout", (event) => { if (event.pointerType === "mouse") show(kept()); });
  form.addEventListener("change", (event) => {
    if (event.target.name === "layer") {
      ticked = true;
      figure.classList.toggle(`no-${event.target.value}`, !event.target.checked);
      enter();
      remember();
    } else if (event.target.name === "standing" || event.target.name === "view") {
      const asks = query();
      asks.set("was", form.elements.was.value);
      turnTo(`?${asks}`);
    }
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-view]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    turnTo(link.getAttribute("href"));
  });
  window.addEventListener("popstate", () => turnTo(window.location.href, false));

  figure.addEventListener("click", (event) => {
    const piece = event.target.closest(".pc");
    if (piece) { take(piece); keep(kept() === piece.dataset.id ? "" : piece.dataset.id); }
  });
  figure.addEventListener("focusin", (event) => {
    const piece = event.target.closest(".pc");
    if (piece) { show(kept(), piece.dataset.id); tell(piece.dataset.id); }
  });
  figure.addEventListener("focusout", () => show(kept()));
  figure.addEventListener("keydown", (event) => {
    const piece = event.target.closest(".pc");
    if (!piece) return;
    const all = [...piece.ownerSVGElement.querySelectorAll(".pc")].filter(seen);
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (step) take(all[(all.indexOf(piece) + step + all.length) % all.length]);
    else if (event.key === "Home") take(all[0]);
    else if (event.key === "End") take(all[all.length - 1]);
    else if (event.key === "Enter" || event.key === " ") piece.dispatchEvent(new MouseEvent("click", { bubbles: true }));
    else return;
    event.preventDefault();
  });

  dress();
  show(kept());
  remember();
})();
