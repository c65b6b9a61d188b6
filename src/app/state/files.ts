import { readProject } from '../../project/read.ts';
import { writeProject } from '../../project/write.ts';
import { replaceProject, tell } from './actions.ts';
import { useApp } from './store.ts';

/** Hands bytes to the browser as a download. */
export function download(name: string, bytes: BlobPart, type: string): void {
  const address = URL.createObjectURL(new Blob([bytes], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the blob by then; some browsers take it late.
  setTimeout(() => URL.revokeObjectURL(address), 30_000);
}

/** A name that every disk takes, from the project's name. */
export function fileName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase();
  return plain.slice(0, 80) || 'fan';
}

/** Saves the project as a file on the person's disk; keys this program does not know are in it too. */
export function saveFile(): void {
  const { project } = useApp.getState();
  download(`${fileName(project.name)}.fanwright.json`, writeProject(project), 'application/json');
}

/** Opens a project file; what is wrong with it is listed and the project on the page stays. */
export async function openFile(file: File): Promise<void> {
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    tell(`"${file.name}" could not be read from the disk; the project on the page is unchanged.`);
    return;
  }
  const read = readProject(bytes);
  if (!read.ok) {
    tell(
      `"${file.name}" is not a project file this program can take; the project on the page is unchanged.`,
      read.errors.map((e) => e.message),
    );
    return;
  }
  replaceProject(read.project, `opened ${file.name}`);
  if (read.notes.length)
    tell(
      `"${file.name}" is open. It holds keys this program does not know; they are kept and written back.`,
      read.notes.map((n) => n.message),
    );
  else useApp.setState({ notice: null });
}
