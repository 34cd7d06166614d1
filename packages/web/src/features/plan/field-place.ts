/** Where a field of the plan is on the plan's page, as an address. */
export const fieldHref = (path: string): string => `/?field=${encodeURIComponent(path)}`
