// How the keyboard's focus shows: a ring of two pixels around it (the least that is
// seen at arm's length; WCAG 2.2, 2.4.13), in sight and not covered (2.4.11).

/** In the page: what is wrong with the thing that has the focus; "" where all is well, null where nothing has it. */
export function focusIn() {
  const element = document.activeElement;
  if (!element || element === document.body) return null;
  const shown = element.closest("label") ?? element;
  const words = `${element.tagName.toLowerCase()} ${(shown.textContent.trim() || element.getAttribute("aria-label") || element.id).replace(/\s+/g, " ").slice(0, 40)}`;
  const ringed = [element, shown, element.nextElementSibling].some((one) => {
    if (!one) return false;
    const { outlineStyle, outlineWidth, stroke, strokeWidth } = getComputedStyle(one);
    return (outlineStyle !== "none" && parseFloat(outlineWidth) >= 2) || (one.matches("svg *") && stroke !== "none" && parseFloat(strokeWidth) >= 2);
  });
  if (!ringed) return `no ring around ${words}`;
  const { left, top, right, bottom } = shown.getBoundingClientRect();
  const at = [[0.5, 0.5], [0.1, 0.1], [0.9, 0.9]].map(([x, y]) => [left + (right - left) * x, top + (bottom - top) * y]);
  const drawnOver = getComputedStyle(shown).pointerEvents === "none"; // the plan's plants: what lies over them is their own drawing
  const bare = at.filter(([x, y]) => x >= 0 && y >= 0 && x <= innerWidth && y <= innerHeight).some(([x, y]) => {
    const over = document.elementFromPoint(x, y);
    return drawnOver ? shown.ownerSVGElement?.contains(over) : over && (shown.contains(over) || over.contains(shown));
  });
  return bare ? "" : `focus is out of sight: ${words}`;
}
