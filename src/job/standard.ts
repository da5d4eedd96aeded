/** What holds where nothing is said: in jobs, and for what is made without one. Lengths in mm. */
export const STANDARD = {
  cutter: 'mat-12x12',
  convention: 'okabe-ito',
  mark: 'ring-and-cross',
  bleed: 3,
  printMargin: 5,
  formats: ['svg', 'dxf', 'pdf', 'guide', 'preview'],
  dpi: 300,
} as const;
