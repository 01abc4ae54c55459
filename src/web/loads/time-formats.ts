/** Formats that logs and sheets come with; any other pattern can be typed. */
export const TIME_FORMATS = [
  'iso',
  'yyyy-MM-dd HH:mm:ss',
  'dd/MM/yyyy HH:mm',
  'dd/MM/yyyy HH:mm:ss',
  'dd.MM.yyyy HH:mm',
  'dd.MM.yyyy HH:mm:ss',
  'MM/dd/yyyy hh:mm:ss a',
  'unix s',
  'unix ms',
] as const;
