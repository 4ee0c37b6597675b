/** The little of the UCUM library that tests use; the package ships no types. */
declare module '@lhncbc/ucum-lhc' {
  export const UcumLhcUtils: {
    getInstance(): { validateUnitString(unit: string): { readonly status: 'valid' | 'invalid' | 'error' } };
  };
}
