import type { Remark } from '../../assess/types.ts';

const WORDS: Readonly<Record<Remark['weight'], string>> = {
  stop: 'Not so',
  care: 'Mind',
  note: 'Note',
};
const ORDER: readonly Remark['weight'][] = ['stop', 'care', 'note'];

interface Props {
  readonly remarks: readonly Remark[];
  readonly label: string;
}

/** What to mind, the weightiest first, each said in words. */
export function Remarks({ remarks, label }: Props) {
  if (remarks.length === 0) return null;
  const sorted = [...remarks].sort((a, b) => ORDER.indexOf(a.weight) - ORDER.indexOf(b.weight));
  return (
    <ul className="remarks" aria-label={label}>
      {sorted.map((r) => (
        <li key={r.path + r.text} className={r.weight}>
          <b>{WORDS[r.weight]}.</b> {r.text}
        </li>
      ))}
    </ul>
  );
}
