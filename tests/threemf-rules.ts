import { strFromU8, unzipSync } from 'fflate';
import { DOMParser } from 'linkedom';

/**
 * Elements and attributes of the 3MF Core Specification 1.3 (3MF Consortium) that a file without extensions may hold, for
 * tests: what an element may contain, what it must carry, what it may carry.
 */
const RULES: Record<string, { holds: string[]; must: string[]; may: string[] }> = {
  model: { holds: ['metadata', 'resources', 'build'], must: ['unit', 'xmlns'], may: ['xml:lang'] },
  metadata: { holds: [], must: ['name'], may: ['preserve', 'type'] },
  resources: { holds: ['basematerials', 'object'], must: [], may: [] },
  object: {
    holds: ['mesh', 'components'],
    must: ['id'],
    may: ['type', 'name', 'partnumber', 'thumbnail', 'pid', 'pindex'],
  },
  mesh: { holds: ['vertices', 'triangles'], must: [], may: [] },
  vertices: { holds: ['vertex'], must: [], may: [] },
  vertex: { holds: [], must: ['x', 'y', 'z'], may: [] },
  triangles: { holds: ['triangle'], must: [], may: [] },
  triangle: { holds: [], must: ['v1', 'v2', 'v3'], may: ['pid', 'p1', 'p2', 'p3'] },
  components: { holds: ['component'], must: [], may: [] },
  component: { holds: [], must: ['objectid'], may: ['transform'] },
  build: { holds: ['item'], must: [], may: [] },
  item: { holds: [], must: ['objectid'], may: ['transform', 'partnumber'] },
};

const UNITS = ['micron', 'millimeter', 'centimeter', 'inch', 'foot', 'meter'];
const METADATA = [
  'Title',
  'Designer',
  'Description',
  'Copyright',
  'LicenseTerms',
  'Rating',
  'CreationDate',
  'ModificationDate',
  'Application',
];
const MODEL = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel';
const NUMBER = /^-?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?$/;

/** Every rule of the core specification a file breaks, in words; empty where it keeps them all. */
export function checkThreeMf(bytes: Uint8Array): string[] {
  const found: string[] = [];
  const files = unzipSync(bytes);
  const parsed = (name: string) =>
    new DOMParser().parseFromString(strFromU8(files[name] ?? new Uint8Array(0)), 'text/xml')
      .documentElement as unknown as Element;
  const types = [...parsed('[Content_Types].xml').querySelectorAll('Default')].map((e) =>
    e.getAttribute('Extension'),
  );
  for (const name of Object.keys(files))
    if (name !== '[Content_Types].xml' && !types.includes(name.split('.').at(-1)!))
      found.push(`${name} has no content type`);
  const relations = [...parsed('_rels/.rels').querySelectorAll('Relationship')];
  if (relations.filter((e) => e.getAttribute('Type') === MODEL).length !== 1)
    found.push('not one model part');
  for (const relation of relations)
    if (!files[relation.getAttribute('Target')!.slice(1)]) found.push('a relationship leads nowhere');

  const model = parsed('3D/3dmodel.model');
  walk(model, found);
  if (!UNITS.includes(model.getAttribute('unit') ?? '')) found.push('no unit of the specification');
  const names = [...model.querySelectorAll('metadata')].map((e) => e.getAttribute('name')!);
  for (const name of names) if (!METADATA.includes(name)) found.push(`metadata ${name} has no namespace`);
  if (new Set(names).size !== names.length) found.push('metadata given twice');
  const known = new Set<string>();
  for (const object of model.querySelectorAll('object')) {
    const id = object.getAttribute('id')!;
    if (!/^[1-9]\d*$/.test(id)) found.push(`object id ${id}`);
    for (const part of object.querySelectorAll('component')) reference(part, known, found);
    if (known.has(id)) found.push(`object ${id} comes twice`);
    known.add(id);
    if (object.querySelectorAll('mesh').length) found.push(...meshFaults(object, id));
  }
  for (const item of model.querySelectorAll('item')) reference(item, known, found);
  return found;
}

function walk(element: Element, found: string[]): void {
  const rule = RULES[element.localName];
  if (!rule) {
    found.push(`element ${element.localName}`);
    return;
  }
  const attributes = [...element.attributes].map(({ name }) => name);
  for (const name of attributes)
    if (![...rule.must, ...rule.may].includes(name)) found.push(`${element.localName} carries ${name}`);
  for (const name of rule.must)
    if (!attributes.includes(name)) found.push(`${element.localName} lacks ${name}`);
  for (const child of element.children) {
    if (!rule.holds.includes(child.localName)) found.push(`${child.localName} in ${element.localName}`);
    walk(child, found);
  }
}

function reference(element: Element, known: ReadonlySet<string>, found: string[]): void {
  const id = element.getAttribute('objectid')!;
  if (!known.has(id)) found.push(`object ${id} is used before it is declared`);
  const transform = element.getAttribute('transform');
  const values = transform?.split(' ') ?? [];
  if (transform && (values.length !== 12 || !values.every((value) => NUMBER.test(value))))
    found.push(`transform ${transform}`);
}

function meshFaults(object: Element, id: string): string[] {
  const found: string[] = [];
  const numbers = (selector: string, names: string[]) =>
    [...object.querySelectorAll(selector)].map((e) => names.map((name) => Number(e.getAttribute(name))));
  const vertices = numbers('vertex', ['x', 'y', 'z']);
  const triangles = numbers('triangle', ['v1', 'v2', 'v3']);
  if (vertices.length < 3 || triangles.length < 4) found.push(`object ${id} has too little of a mesh`);
  if (vertices.flat().some((value) => !Number.isFinite(value)))
    found.push(`object ${id} has a vertex that is no number`);
  const edges = new Set<string>();
  let volume = 0;
  for (const [a, b, c] of triangles) {
    if ([a, b, c].some((v) => !Number.isInteger(v) || v < 0 || v >= vertices.length)) {
      found.push(`object ${id} has a triangle with a vertex that is not there`);
      return found;
    }
    if (a === b || b === c || c === a) found.push(`object ${id} has a triangle with a corner twice`);
    for (const edge of [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]) {
      if (edges.has(edge)) found.push(`object ${id}: edge ${edge} runs the same way twice`);
      edges.add(edge);
    }
    const [p, q, r] = [vertices[a], vertices[b], vertices[c]];
    volume +=
      p[0] * (q[1] * r[2] - q[2] * r[1]) +
      p[1] * (q[2] * r[0] - q[0] * r[2]) +
      p[2] * (q[0] * r[1] - q[1] * r[0]);
  }
  for (const edge of edges)
    if (!edges.has(edge.split(' ').reverse().join(' '))) {
      found.push(`object ${id}: edge ${edge} has one triangle only`);
      break;
    }
  if (!(volume > 0)) found.push(`object ${id} is inside out`);
  return found;
}
