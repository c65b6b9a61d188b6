const PRINTABLE =
  '278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584 ' +
  '584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278 ' +
  '278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 ' +
  '500 334 260 334 584';

/**
 * Widths of standard Helvetica in thousandths of the size, by character code, for printable ASCII and a few marks of
 * drawings. Source: Adobe's font metrics of the standard fonts (from memory); others count as a digit's width.
 */
export const widths: Readonly<Record<number, number>> = {
  ...Object.fromEntries(PRINTABLE.split(' ').map((width, i) => [32 + i, Number(width)])),
  0xb0: 400,
  0xb7: 278,
  0xd7: 584,
  0xd8: 778,
};
