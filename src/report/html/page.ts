/** The frame of a self-contained page: no network, no script. */
import { html, type Markup } from './markup.ts';

export interface PageParts {
  readonly title: string;
  readonly style: string;
  readonly body: Markup;
}

/** A whole HTML document that ends with a line feed. */
export function htmlPage({ title, style, body }: PageParts): string {
  return html`<!DOCTYPE html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${{ markup: style }}</style>
</head>
<body>
${body}
</body>
</html>
`.markup;
}
