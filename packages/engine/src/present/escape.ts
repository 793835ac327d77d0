const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text made safe inside HTML and SVG, in content and in attributes. What no XML may hold becomes U+FFFD. */
export const escapeMarkup = (text: string): string =>
  text.replace(/[&<>"']|(?![\t\n\r])[\p{Cc}\p{Cs}\ufffe\uffff]/gu, (sign) => ENTITIES[sign] ?? "\ufffd");
