/** A drawing of the page as a file of its own: the page's colours written out, its face named, nothing else changed. */
export function svgFile(svg: SVGSVGElement, title: string): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  for (const hand of copy.querySelectorAll("[data-hand]")) hand.remove(); // cursor and selection belong to the page
  const box = svg.viewBox.baseVal;
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.setAttribute("width", String(box.width));
  copy.setAttribute("height", String(box.height));
  copy.setAttribute("font-family", "sans-serif");
  copy.setAttribute("font-size", "13");
  // what only the page's control says; its name stays, as the drawing's title
  for (const { name } of [...copy.attributes]) if (/^(class|role|tabindex|aria-.*|style)$/.test(name)) copy.removeAttribute(name);
  const heading = document.createElementNS("http://www.w3.org/2000/svg", "title");
  heading.textContent = title;
  const style = getComputedStyle(svg);
  const paper = style.getPropertyValue("--paper").trim() || "#fff";
  const back = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  for (const [name, value] of Object.entries({ width: "100%", height: "100%", fill: paper })) back.setAttribute(name, value);
  copy.prepend(heading, back);
  const text = new XMLSerializer().serializeToString(copy);
  return text
    .replace(/<!--.*?-->/gs, "")
    .replace(/ class="[^"]*"/g, "")
    .replace(/var\(--([\w-]+)\)/g, (_, name: string) => style.getPropertyValue(`--${name}`).trim() || "currentColor");
}

/** Hands a text to the browser as a file. */
export function saveAs(name: string, text: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A name that any disk takes: "Force over speed" -> "force-over-speed". */
export function fileName(words: string): string {
  const plain = words
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
  return plain || "plot";
}
