const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** Text, and attribute values between double quotes, of HTML and SVG. */
export const escaped = (text: string): string => text.replace(/[&<>"]/g, c => ENTITIES[c]!);
