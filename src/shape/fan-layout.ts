/**
 * Every derived dimension of one fan [m]. The axis z points downstream; z = 0 where the lip meets the bore, so the lip
 * reaches up to `-lipRadius` and the exit lies at `exitZ`. From top to bottom on the axis: hub, motor, seat, tail cone.
 */
export interface FanLayout {
  readonly ducted: boolean;
  readonly tipRadius: number;
  /** Outermost radius that turns: the tips', or the outside of the ring that joins them. */
  readonly turningRadius: number;
  /** Half the height of the tip ring along the axis; 0 without one. */
  readonly ringHalfHeight: number;
  readonly hubRadius: number;
  readonly boreRadius: number;
  readonly lipRadius: number;
  readonly wall: number;
  readonly topZ: number;
  readonly exitZ: number;
  readonly exitRadius: number;
  readonly outerRadius: number;
  readonly rotorZ: number;
  readonly hubTopZ: number;
  readonly hubBottomZ: number;
  /** Radius of the shaft as bought; the drawn bore is wider by what the printer closes. */
  readonly shaftRadius: number;
  /** Hole of the hub for what passes through it, as bought: the shaft, its end and some room, or the thread. */
  readonly hubBoreRadius: number;
  /**
   * The hub is a cup with a boss around the bore, a web, and a rim that carries the blades. Pressed or clamped it opens
   * downstream under a web at the top; screwed to the bell it opens upstream, its web on the bell, the screw heads inside.
   */
  readonly hubOpen: 'downstream' | 'upstream' | 'solid';
  readonly hubBossRadius: number;
  /** Inner radius of the rim; the boss radius where the hub is solid. */
  readonly hubRimRadius: number;
  /** The face of the web toward the hollow; the far face of the hub where it is solid. */
  readonly hubWebZ: number;
  readonly motorRadius: number;
  readonly motorTopZ: number;
  readonly seatTopZ: number;
  readonly seatBottomZ: number;
  readonly seatRadius: number;
  /** Where the vanes begin: a little within the edge of the plate, clear of the can. */
  readonly vaneInnerRadius: number;
  /** Hole in the middle of the plate, for shaft end and bearing; 0 where the screws leave no room. */
  readonly seatHoleRadius: number;
  readonly mountCircleRadius: number;
  /** Clearance hole of a mounting screw. */
  readonly screwHoleRadius: number;
  readonly tailZ: number;
  readonly vaneTopZ: number;
  readonly vaneBottomZ: number;
  /** Half the axial depth of the blade, at the deepest station. */
  readonly bladeHalfDepth: number;
}
