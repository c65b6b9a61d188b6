import type { Kernel } from '../make/kernel.ts';
import type { Made } from '../make/make.ts';
import type { NamedFile } from '../make/threemf.ts';
import type { Project } from '../project/schema.ts';

/** `STEM-drawing.svg` and `STEM-drawing.pdf`. */
export async function drawingFiles(project: Project, stem: string): Promise<NamedFile[]> {
  const [{ fanDrawing }, { writeSvg }, { writePdf }] = await Promise.all([
    import('../make/drawing/fan.ts'),
    import('../make/drawing/svg.ts'),
    import('../make/drawing/pdf.ts'),
  ]);
  const sheet = fanDrawing(project);
  return [
    { name: `${stem}-drawing.svg`, bytes: new TextEncoder().encode(writeSvg(sheet)) },
    { name: `${stem}-drawing.pdf`, bytes: writePdf(sheet) },
  ];
}

/** `STEM-PART.step` for each part and `STEM-assembly.step`, and a sentence for each part that has none. */
export async function stepFiles(project: Project, made: Made, kernel: Kernel, stem: string) {
  const { loadStepKernel, stepOfAll } = await import('../make/step/step.ts');
  const { parts, assembly, missing } = stepOfAll({ step: await loadStepKernel(), kernel, project, made });
  const files: NamedFile[] = parts.map(({ id, bytes }) => ({ name: `${stem}-${id}.step`, bytes }));
  if (assembly) files.push({ name: `${stem}-assembly.step`, bytes: assembly });
  return { files, missing };
}
