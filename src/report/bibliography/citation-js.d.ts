/** The little of citation-js that is used; the packages ship no types. */
declare module '@citation-js/core' {
  export const plugins: {
    readonly config: {
      get(name: '@bibtex'): { readonly format: { useIdAsLabel: boolean; checkLabel: boolean; asciiOnly: boolean } };
    };
    readonly output: { format(name: 'bibtex', items: readonly object[]): string };
  };
}
declare module '@citation-js/plugin-bibtex';
