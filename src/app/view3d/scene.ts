import {
  AmbientLight,
  Box3,
  BufferAttribute,
  BufferGeometry,
  Color,
  CylinderGeometry,
  DirectionalLight,
  DoubleSide,
  Group,
  HemisphereLight,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshStandardMaterial,
  PerspectiveCamera,
  Plane,
  Scene,
  Sphere,
  SphereGeometry,
  Vector3,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import type { FanLayout } from '../../shape/layout.ts';
import type { ShownCraft, ShownPart } from './solids.ts';

/** The drawn fan in three dimensions: draws when something changed, and only then. */
export interface FanScene {
  show(parts: readonly ShownPart[], layout: FanLayout): void;
  /** The whole craft in place of one fan, with its centre of mass. */
  showCraft(craft: ShownCraft): void;
  /** Looks straight down on it, forward being up, or as at first. */
  lookFrom(where: 'above' | 'askew'): void;
  recolour(): void;
  /** How long the last picture held up the page [ms]; long where there is no graphics card. */
  held(): number;
  /** Turns the view by these angles [rad]. */
  turn(across: number, up: number): void;
  dispose(): void;
}

/** From the fan's frame (z downstream) to the view's (y up, air going down). */
const UPRIGHT = new Matrix4().set(1, 0, 0, 0, 0, 0, -1, 0, 0, 1, 0, 0, 0, 0, 0, 1);

/** Where the reader stands at first, seen from the fan: to the right, above, in front. */
const FIRST_VIEW = new Vector3(0.55, 0.75, 1);

/** What is drawn as turning: whole, where the duct is cut open. */
const TURNING: ReadonlySet<ShownPart['kind']> = new Set(['rotor', 'blade', 'hub', 'hubCap', 'spinner']);

/** How far off, in radii of the sphere around the fan, so that the fan fills the view. */
const DISTANCE = 3.05;
const CRAFT_DISTANCE = 3.1;

/** Builds the view on a canvas. Throws where there is no WebGL. */
export function createScene(canvas: HTMLCanvasElement, onContext: (lost: boolean) => void): FanScene {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.localClippingEnabled = true;
  const scene = new Scene();
  const camera = new PerspectiveCamera(30, 1, 1, 5000);
  const controls = new OrbitControls(camera, canvas);
  controls.enablePan = false;
  // The page scrolls over the drawing; the wheel is not the view's to take.
  controls.enableZoom = false;
  const fan = new Group();
  fan.applyMatrix4(UPRIGHT);
  const key = new DirectionalLight(0xffffff, 2.2);
  key.position.set(2, 4, 3);
  scene.add(fan, new HemisphereLight(0xffffff, 0x8a8478, 1.3), new AmbientLight(0xffffff, 0.3), key);
  // Half of the duct is cut away: what lies towards the first view.
  const cut = new Plane(new Vector3(-0.6, 0, -0.8), 0);
  const rotor = new MeshStandardMaterial({ roughness: 0.55, metalness: 0.05, flatShading: true });
  const duct = new MeshStandardMaterial({
    roughness: 0.8,
    flatShading: true,
    side: DoubleSide,
    clippingPlanes: [cut],
  });
  const motor = new MeshStandardMaterial({ roughness: 0.4, metalness: 0.4 });
  // A craft is shown whole.
  const whole = new MeshStandardMaterial({ roughness: 0.8, flatShading: true });
  const centre = new MeshBasicMaterial({ depthTest: false, transparent: true });
  let framed = 0;
  let queued = 0;
  let heldFor = 0;

  const draw = () => {
    queued = 0;
    const from = performance.now();
    renderer.render(scene, camera);
    requestAnimationFrame(() => (heldFor = performance.now() - from));
  };
  const redraw = () => {
    if (!queued) queued = requestAnimationFrame(draw);
  };
  const recolour = () => {
    // Asked for as a colour in use: the token itself still holds both its light and its dark value.
    const colour = (name: string) => {
      canvas.style.color = `var(${name})`;
      return new Color(getComputedStyle(canvas).color);
    };
    rotor.color = colour('--solid-rotor');
    duct.color = colour('--solid-duct');
    whole.color = duct.color;
    centre.color = colour('--mark');
    motor.color = colour('--solid-motor');
    redraw();
  };
  const resize = () => {
    const { clientWidth: width, clientHeight: height } = canvas;
    if (width === 0 || height === 0) return;
    renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    redraw();
  };
  const empty = () => {
    for (const child of fan.children) (child as Mesh<BufferGeometry>).geometry.dispose();
    fan.clear();
  };
  const onLost = (event: Event) => {
    event.preventDefault();
    onContext(true);
  };
  const onBack = () => {
    onContext(false);
    redraw();
  };
  canvas.addEventListener('webglcontextlost', onLost);
  canvas.addEventListener('webglcontextrestored', onBack);
  controls.addEventListener('change', redraw);
  const observer = new ResizeObserver(resize);
  observer.observe(canvas);
  recolour();

  return {
    show(parts, layout) {
      empty();
      for (const part of parts) {
        const geometry = new BufferGeometry();
        geometry.setAttribute('position', new BufferAttribute(part.positions, 3));
        geometry.setIndex(new BufferAttribute(part.indices, 1));
        for (const placement of part.placements) {
          const mesh = new Mesh(geometry, TURNING.has(part.kind) ? rotor : duct);
          mesh.applyMatrix4(new Matrix4().fromArray(placement));
          fan.add(mesh);
        }
      }
      fan.add(motorOf(layout, motor));
      const half = layout.ducted ? (layout.exitZ - layout.topZ) / 2 : 0;
      const size = 1000 * Math.hypot(layout.ducted ? layout.outerRadius : layout.tipRadius, half);
      const middle = layout.ducted ? (layout.topZ + layout.exitZ) / 2 : layout.rotorZ;
      const from = framed ? camera.position.clone().sub(controls.target) : FIRST_VIEW.clone();
      controls.target.set(0, -1000 * middle, 0);
      // A larger fan is seen from farther off, so that it fills the view as the old one did.
      from.setLength(framed ? from.length() * (size / framed) : size * DISTANCE);
      framed = size;
      camera.position.copy(controls.target).add(from);
      controls.update();
      redraw();
    },
    showCraft(craft) {
      empty();
      const looks = { turns: rotor, printed: whole, bought: motor };
      const geometries = craft.meshes.map(({ positions, indices }) => {
        const geometry = new BufferGeometry();
        geometry.setAttribute('position', new BufferAttribute(positions, 3));
        geometry.setIndex(new BufferAttribute(indices, 1));
        return geometry;
      });
      for (const { mesh, look, placement } of craft.pieces) {
        const drawn = new Mesh(geometries[mesh], looks[look]);
        drawn.applyMatrix4(new Matrix4().fromArray(placement));
        fan.add(drawn);
      }
      fan.updateMatrixWorld(true);
      const sphere = new Box3().setFromObject(fan).getBoundingSphere(new Sphere());
      const dot = new Mesh(new SphereGeometry(sphere.radius * 0.025, 24, 16), centre);
      dot.position.set(...craft.centreOfMass_mm);
      dot.renderOrder = 1;
      fan.add(dot);
      const from = framed ? camera.position.clone().sub(controls.target) : FIRST_VIEW.clone();
      controls.target.copy(sphere.center);
      from.setLength(framed ? from.length() * (sphere.radius / framed) : sphere.radius * CRAFT_DISTANCE);
      framed = sphere.radius;
      camera.position.copy(controls.target).add(from);
      controls.update();
      redraw();
    },
    lookFrom(where) {
      const distance = camera.position.distanceTo(controls.target);
      // Forward, the craft's x, is the view's x: the reader stands behind it.
      const from =
        where === 'above'
          ? new Vector3().setFromSphericalCoords(distance, 1e-3, -Math.PI / 2)
          : FIRST_VIEW.clone().setLength(distance);
      camera.position.copy(controls.target).add(from);
      controls.update();
      redraw();
    },
    recolour,
    held: () => heldFor,
    turn(across, up) {
      const from = camera.position.clone().sub(controls.target);
      const distance = from.length();
      const azimuth = Math.atan2(from.x, from.z) + across;
      const polar = Math.min(Math.PI - 0.05, Math.max(0.05, Math.acos(from.y / distance) - up));
      from.setFromSphericalCoords(distance, polar, azimuth);
      camera.position.copy(controls.target).add(from);
      controls.update();
      redraw();
    },
    dispose() {
      cancelAnimationFrame(queued);
      observer.disconnect();
      canvas.removeEventListener('webglcontextlost', onLost);
      canvas.removeEventListener('webglcontextrestored', onBack);
      controls.dispose();
      empty();
      for (const material of [rotor, duct, motor, whole, centre]) material.dispose();
      renderer.dispose();
    },
  };
}

function motorOf(layout: FanLayout, material: MeshStandardMaterial): Mesh {
  const height = 1000 * (layout.seatTopZ - layout.motorTopZ);
  const geometry = new CylinderGeometry(1000 * layout.motorRadius, 1000 * layout.motorRadius, height, 48);
  geometry.rotateX(Math.PI / 2);
  geometry.translate(0, 0, 500 * (layout.seatTopZ + layout.motorTopZ));
  return new Mesh(geometry, material);
}
