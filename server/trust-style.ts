/** How the trust page looks; it stands alone, since a device that does not trust us yet loads nothing else. */
export const TRUST_STYLE = `
:root { color-scheme: light dark; font: 1.0625rem/1.5 system-ui, sans-serif; }
body { margin: 0; background: Canvas; color: CanvasText; }
main { max-width: 38rem; margin: 0 auto; padding: 1rem 1rem 4rem; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; line-height: 1.2; }
h2 { font-size: 1.2rem; margin: 1.75rem 0 0.5rem; }
code { font: 600 1.05rem/1.7 ui-monospace, monospace; overflow-wrap: anywhere; }
img { display: block; width: 100%; max-width: 22.5rem; height: auto; margin: 0.75rem 0; border-radius: 0.5rem; }
li { margin: 0.4rem 0; }
details { border: 1px solid GrayText; border-radius: 0.5rem; margin: 0.5rem 0; padding: 0 0.75rem; }
summary { padding: 0.75rem 0; font-weight: 600; cursor: pointer; min-height: 1.5rem; }
.aside { font-size: 0.95rem; }
.button {
  display: inline-block; padding: 0.75rem 1.1rem; border-radius: 0.5rem; font-weight: 600;
  background: #12507b; color: #fff; text-decoration: none;
}
.language { display: inline-block; padding: 0.75rem 1.1rem; margin-left: -1.1rem; font-weight: 600; }
.button:focus-visible, .language:focus-visible, summary:focus-visible { outline: 3px solid #d97706; outline-offset: 2px; }
`;
