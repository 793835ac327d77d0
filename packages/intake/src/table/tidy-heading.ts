/** The words of a heading: `Settlement_Date`, `settlementDate` and `settlement date` read alike. */
export const tidy = (heading: string): string =>
  heading
    .replace(/([a-z]{2})([A-Z])/g, "$1 $2")
    .replace(/[_]+/g, " ")
    .trim();
