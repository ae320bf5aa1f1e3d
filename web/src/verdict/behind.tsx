import type { ComponentChildren } from 'preact';
import { words } from '../words';
import type { Reason } from './answer';
import { ReasonList } from './reasons';

interface Props {
  rows: readonly (readonly [label: string, value: string])[];
  reasons: readonly Reason[];
  /** What was read, between the figures and the reasons. */
  children?: ComponentChildren;
}

/** The figures behind a verdict on one part, and its reasons. */
export function Behind({ rows, reasons, children }: Props) {
  const { verdict } = words;
  return (
    <>
      <table>
        <tbody>
          {rows.map(([label, value]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td class="figures">{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {children}
      <h3>{verdict.working_reasons}</h3>
      <ReasonList reasons={reasons} />
      <p class="small soft">{verdict.how_computed}</p>
    </>
  );
}
