import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { massItems } from './mass.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('the demo does not read');
const demo: Project = read.project;

const printed = (change: Partial<Project['printer']>, wall_mm = 1) => {
  const project = {
    ...demo,
    fan: { ...demo.fan, duct: { ...demo.fan.duct, wall_mm } },
    printer: { ...demo.printer, ...change },
  };
  const items = massItems(project, printedVolumes(project.fan, project.motor, 0.2));
  const of = (name: string) => items.find((item) => item.name === name)!.each_g;
  return { rotor: of('rotor'), duct: of('duct') };
};

describe('printed mass', () => {
  it('is solid where the lines of both faces meet, whatever the infill', () => {
    const skins = { walls: 3, skinLayers: 20 };
    expect(printed({ infill_ratio: 0, ...skins })).toEqual(printed({ infill_ratio: 1 }));
  });

  it("counts the inside of a hub's web, which lies between its skins", () => {
    const none = printed({ infill_ratio: 0, walls: 3, skinLayers: 4 });
    const full = printed({ infill_ratio: 1 });
    expect(none.duct).toBe(full.duct);
    expect(none.rotor / full.rotor).toBeGreaterThan(0.8);
    expect(none.rotor / full.rotor).toBeLessThan(0.97);
  });

  it('is what the lines leave where they do not: a 4 mm wall with one line on each face', () => {
    const full = printed({ infill_ratio: 1 }, 4);
    const shell = printed({ infill_ratio: 0, walls: 1 }, 4);
    expect(shell.duct / full.duct).toBeCloseTo(0.84 / 4, 9);
    expect(shell.rotor).toBeLessThan(full.rotor);
    const some = printed({ infill_ratio: 0.5, walls: 1 }, 4);
    expect(some.duct).toBeCloseTo((shell.duct + full.duct) / 2, 9);
  });

  it('resin parts are solid', () => {
    expect(printed({ process: 'resin', infill_ratio: 0, walls: 1 }, 4)).toEqual(printed({}, 4));
  });
});
