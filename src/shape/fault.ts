/** Something that keeps a solid from being made: where in the project file, and what would do. */
export interface GeometryFault {
  readonly path: string;
  readonly text: string;
}
