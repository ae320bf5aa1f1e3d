import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { words } from '../words';

/** A picture with its name, what it shows in a sentence, and the same as a table. */
export interface FigureProps {
  name: string;
  kind: string;
  /** What there is to see, for those who hear it. */
  says: string;
  table?: { head: string[]; rows: string[][] };
  children: ComponentChildren;
}

export function Figure({ name, kind, says, table, children }: FigureProps) {
  return (
    <figure class={`picture picture-${kind}`} aria-label={name}>
      <p class="heard">{says}</p>
      {children}
      {table && (
        <details class="as-table">
          <summary>{words.shell.asTable}</summary>
          <table>
            <thead>
              <tr>
                {table.head.map((cell) => (
                  <th key={cell} scope="col">
                    {cell}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row) => (
                <tr key={row.join()}>
                  {row.map((cell, i) => (
                    <td key={table.head[i]} class={i ? 'digits' : ''}>
                      {cell}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
    </figure>
  );
}

/** The width that a picture has, so that its words are never scaled. */
export function useWidth(otherwise: number) {
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(otherwise);
  useEffect(() => {
    const element = frame.current;
    if (!element || typeof ResizeObserver === 'undefined') return;
    const watcher = new ResizeObserver(() => setWidth(element.clientWidth || otherwise));
    watcher.observe(element);
    return () => watcher.disconnect();
  }, [otherwise]);
  return [frame, width] as const;
}
