// What the tests get where a page imports a style sheet.
export default {};
