/** Text made safe inside HTML and SVG, in content and in attributes. */
export const escapeMarkup = (text: string): string =>
  text.replace(
    /[&<>"']/g,
    (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" })[sign] ?? sign,
  );
