import type { LoftPoints } from '../loft.ts';

/** A closed contour [mm]; the last point joins the first. */
export type Contour = readonly (readonly [number, number])[];

/** How a solid was built, in operations that any solid kernel knows. Lengths [mm], angles [deg]. */
export type Recipe =
  | { readonly op: 'loft'; readonly through: LoftPoints }
  | {
      readonly op: 'extrude';
      readonly contours: readonly Contour[];
      readonly height: number;
      readonly centred: boolean;
    }
  | { readonly op: 'revolve'; readonly contours: readonly Contour[]; readonly degrees: number }
  | {
      readonly op: 'cone';
      readonly height: number;
      readonly low: number;
      readonly high: number;
      readonly centred: boolean;
    }
  | { readonly op: 'box'; readonly size: readonly [number, number, number]; readonly centred: boolean }
  | { readonly op: 'ball'; readonly radius: number }
  | { readonly op: 'union' | 'difference' | 'intersection'; readonly of: readonly Recipe[] }
  /** 4 by 4, column after column. */
  | { readonly op: 'moved'; readonly by: readonly number[]; readonly of: Recipe }
  /** The half beyond `offset` along `normal` stays. */
  | {
      readonly op: 'trimmed';
      readonly normal: readonly [number, number, number];
      readonly offset: number;
      readonly of: Recipe;
    }
  /** Known by its facets only. */
  | { readonly op: 'facets'; readonly why: string };

/** What of a recipe is known by its facets only; empty where all of it has exact surfaces. */
export function facetedIn(recipe: Recipe): string[] {
  if (recipe.op === 'facets') return [recipe.why];
  if (!('of' in recipe)) return [];
  return (Array.isArray(recipe.of) ? (recipe.of as Recipe[]) : [recipe.of as Recipe]).flatMap(facetedIn);
}
