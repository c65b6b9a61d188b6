import { useId } from 'react';

/** Sentences of the core under a small heading, or with none. */
export function Said({ label, texts }: { readonly label?: string; readonly texts: readonly string[] }) {
  const id = useId();
  return (
    <>
      {label && (
        <h4 id={id} className="said-label">
          {label}
        </h4>
      )}
      <ul className="said" aria-labelledby={label ? id : undefined}>
        {texts.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </>
  );
}
