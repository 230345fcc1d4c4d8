// A receipt's lines: offers in each only what is on order of the part that was typed there. Works without this.
(() => {
  for (const line of document.querySelectorAll(".receipt-line")) {
    const part = line.querySelector("input[name$=-part]");
    const answers = line.querySelector("select[name$=-answers]");
    if (!part || !answers) continue;
    const look = () => {
      const typed = part.value.trim().toUpperCase();
      const known = [...answers.options].some((option) => option.dataset.part === typed);
      for (const option of answers.options) {
        option.hidden = Boolean(option.dataset.part) && known && option.dataset.part !== typed;
        if (option.hidden && option.selected) answers.value = "";
      }
    };
    part.addEventListener("input", look);
    look();
  }
})();
