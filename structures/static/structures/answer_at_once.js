// A form marked data-answer-at-once is sent as soon as a choice in it changes; without this file its button does the same.
(() => {
  "use strict";
  const form = document.querySelector("form[data-answer-at-once]");
  if (!form) return;
  const kept = "hoopledger-scroll";
  // A choice may stand elsewhere on the page and belong to the form all the same.
  document.addEventListener("change", (event) => {
    if (event.target.form !== form) return;
    sessionStorage.setItem(kept, JSON.stringify({ y: window.scrollY, focus: document.activeElement && document.activeElement.id }));
    form.requestSubmit(form.querySelector("[data-without-script]"));
  });
  for (const button of form.querySelectorAll("[data-without-script]")) button.hidden = true;
  const was = JSON.parse(sessionStorage.getItem(kept) || "null");
  sessionStorage.removeItem(kept);
  if (was) {
    window.scrollTo(0, was.y);
    const field = was.focus && document.getElementById(was.focus);
    if (field) field.focus({ preventScroll: true });
  }
})();
