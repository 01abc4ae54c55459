/** The header by which the service knows which version of a record was edited. */
export const ifMatch = ({ version }: { readonly version: number }) => ({ 'If-Match': `"${version}"` });
