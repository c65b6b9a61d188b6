import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { Keep, StepKernel } from './kernel.ts';
import { transformOf } from './solid.ts';

/** A named solid of a STEP file, once or at several places. */
export interface StepItem {
  readonly name: string;
  readonly shape: TopoDS_Shape;
  /** 4 by 4, column after column [mm]. Left out: once, where it is, and not as part of an assembly. */
  readonly places?: readonly (readonly number[])[];
}

/** Readers show dates; equal projects shall give equal bytes, so the file carries the one that means "none". */
const NO_DATE = '1970-01-01T00:00:00';

const FILE = 'out.step';

/** A STEP file (ISO 10303-21, schema AP214) in millimetres. One item without places is one part; several are an assembly. */
export function stepFile(oc: StepKernel, keep: Keep, title: string, items: readonly StepItem[]): Uint8Array {
  const text = (value: string) => keep(new oc.TCollection_ExtendedString(value, true));
  const document = keep(new oc.TDocStd_Document(text('XmlOcaf')));
  oc.XCAFDoc_ShapeTool.SetAutoNaming(false);
  const tool = keep(oc.XCAFDoc_DocumentTool.ShapeTool(keep(document.Main())));
  const named = (label: Parameters<typeof oc.TDataStd_Name.Set>[0], name: string) =>
    void oc.TDataStd_Name.Set(label, text(plain(name)));
  const whole = items.some(({ places }) => places) ? keep(tool.NewShape()) : null;
  if (whole) named(whole, title);
  for (const { name, shape, places } of items) {
    const part = keep(tool.AddShape(shape, false, true));
    named(part, name);
    (places ?? []).forEach((place, i) => {
      const at = keep(new oc.TopLoc_Location(transformOf(oc, keep, place)));
      const copy = keep(tool.AddComponent(whole!, part, at));
      named(copy, places!.length > 1 ? `${name} ${i + 1}` : name);
    });
  }
  tool.UpdateAssemblies();
  const session = keep(new oc.XSControl_WorkSession());
  const writer = keep(new oc.STEPCAFControl_Writer(session, false));
  writer.SetNameMode(true);
  oc.Interface_Static.SetCVal('xstep.cascade.unit', 'MM');
  oc.Interface_Static.SetCVal('write.step.unit', 'MM');
  oc.Interface_Static.SetIVal('write.surfacecurve.mode', 1);
  oc.Interface_Static.SetIVal('write.precision.mode', 0);
  oc.Interface_Static.SetIVal('write.step.assembly', 2);
  if (!writer.Perform(document, FILE, keep(new oc.Message_ProgressRange())))
    throw new Error('The STEP file could not be written.');
  const written = oc.FS.readFile(`/${FILE}`) as Uint8Array;
  oc.FS.unlink(`/${FILE}`);
  return withHeader(written, title);
}

/** The header says what the file is of, and nothing of when and by what it was written. */
function withHeader(bytes: Uint8Array, title: string): Uint8Array {
  const whole = new TextDecoder('latin1').decode(bytes);
  const end = whole.indexOf('ENDSEC;');
  const name = stepString(title);
  const header =
    'ISO-10303-21;\nHEADER;\n' +
    `FILE_DESCRIPTION((${name}),'2;1');\n` +
    `FILE_NAME(${name},'${NO_DATE}',(''),(''),'Fanwright','Fanwright','');\n` +
    "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\n";
  // The kernel counts on from file to file where it numbers the members of an assembly.
  let member = 0;
  const data = whole
    .slice(end)
    .replace(/(NEXT_ASSEMBLY_USAGE_OCCURRENCE\(\s*)'\d+'/g, (_, start: string) => `${start}'${++member}'`);
  return Uint8Array.from(header + data, (mark) => mark.charCodeAt(0));
}

/** Names inside the data: characters that the kernel's writer would have to encode are left to the closest plain ones. */
const plain = (name: string): string => name.replace(/[\u0000-\u001f\u007f]/g, ' ');

/** Text of ISO 10303-21: apostrophe and backslash doubled, what is not plain ASCII as \X2\ or \X4\ groups. */
export function stepString(value: string): string {
  let text = '';
  for (const mark of value) {
    const code = mark.codePointAt(0)!;
    if (mark === "'") text += "''";
    else if (mark === '\\') text += '\\\\';
    else if (code >= 32 && code < 127) text += mark;
    else if (code > 0xffff) text += `\\X4\\${code.toString(16).toUpperCase().padStart(8, '0')}\\X0\\`;
    else if (code >= 128) text += `\\X2\\${code.toString(16).toUpperCase().padStart(4, '0')}\\X0\\`;
    else text += ' ';
  }
  return `'${text}'`;
}
