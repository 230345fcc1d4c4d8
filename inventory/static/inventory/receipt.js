// A receipt's lines: each asks what it answers once its part is on order, and offers only that. Works without this.
(() => {
  for (const line of document.querySelectorAll(".receipt-line")) {
    const part = line.querySelector("input[name$=-part]");
    const answers = line.querySelector("select[name$=-answers]");
    if (!part || !answers) continue;
    const look = () => {
      const typed = part.value.trim().toUpperCase();
      const known = [...answers.options].some((option) => option.dataset.part === typed);
      answers.closest(".field").hidden = !known && !answers.closest(".bad");
      for (const option of answers.options) {
        option.hidden = Boolean(option.dataset.part) && option.dataset.part !== typed;
        if (option.hidden && option.selected) answers.value = "";
      }
    };
    part.addEventListener("input", look);
    look();
  }
})();
