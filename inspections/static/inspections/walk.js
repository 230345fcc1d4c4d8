// The walk's small comforts: the device's clock, a look at the photo just taken, the class a finding suggests, and the
// place nearest to a tap on the drawing. Every page works without them.
(() => {
  "use strict";

  for (const form of document.querySelectorAll("form")) {
    form.addEventListener("submit", () => {
      for (const field of form.querySelectorAll("[data-device-clock]")) field.value = new Date().toISOString();
    });
  }

  for (const input of document.querySelectorAll("[data-photo]")) {
    input.addEventListener("change", () => {
      const file = input.files[0];
      const slot = input.closest("[data-photo-slot]");
      if (!file || !slot) return;
      slot.querySelector("img")?.remove();
      const picture = document.createElement("img");
      picture.alt = "The photo just chosen";
      picture.src = URL.createObjectURL(file);
      picture.addEventListener("load", () => URL.revokeObjectURL(picture.src));
      picture.addEventListener("error", () => picture.remove());
      slot.prepend(picture);
    });
  }

  for (const finding of document.querySelectorAll("[data-suggests]")) {
    finding.addEventListener("change", () => {
      const form = finding.form;
      if (form.dataset.classChosen) return;
      const suggested = form.querySelector(`[name="fault_class"][value="${finding.dataset.suggests}"]`);
      if (suggested) suggested.checked = true;
    });
  }
  for (const chosen of document.querySelectorAll('[name="fault_class"]')) {
    chosen.addEventListener("change", () => { chosen.form.dataset.classChosen = "yes"; });
  }

  for (const box of document.querySelectorAll("[data-tap-nearest]")) {
    const marks = [...box.querySelectorAll("[data-place]")];
    if (!marks.length) continue;
    box.classList.add("can-tap");
    box.addEventListener("click", (tap) => {
      if (tap.detail === 0) return; // from the keyboard: the link in focus is the one that was meant
      const away = (mark) => {
        const at = mark.getBoundingClientRect();
        return Math.hypot(at.x + at.width / 2 - tap.clientX, at.y + at.height / 2 - tap.clientY);
      };
      const nearest = marks.reduce((best, mark) => (away(mark) < away(best) ? mark : best));
      tap.preventDefault();
      location.assign(`${box.dataset.tapNearest}?place=${encodeURIComponent(nearest.dataset.place)}#in-hand`);
    });
  }
})();
