// One line of a pick: the minus and plus keys, and a scanner that types wherever the hand is. Everything works without this.
(() => {
  // A page that the browser kept whole would show the counts of a while ago.
  addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
  const form = document.querySelector("[data-count]");
  if (form) {
    const field = form.querySelector("input[name=count]");
    const most = Number(field.dataset.most);
    for (const button of form.querySelectorAll("[data-step]")) {
      button.addEventListener("click", () => {
        const now = Number.parseInt(field.value, 10) || 0;
        field.value = String(Math.min(most, Math.max(1, now + Number(button.dataset.step))));
      });
    }
  }
  // A scanner is a keyboard that types fast and ends with Enter. People type into fields; what comes elsewhere is a label.
  const scan = document.querySelector("[data-scan]");
  if (!scan) return;
  const code = scan.querySelector("input[name=code]");
  let typed = "";
  let last = 0;
  document.addEventListener("keydown", (event) => {
    if (event.target.matches("input, select, textarea, button, a, summary")) return;
    if (event.timeStamp - last > 500) typed = "";
    last = event.timeStamp;
    if (event.key === "Enter" && typed) {
      event.preventDefault();
      code.value = typed;
      scan.requestSubmit();
    } else if (event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey) {
      typed += event.key;
    }
  });
})();
