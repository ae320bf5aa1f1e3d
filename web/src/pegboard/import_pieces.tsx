import { call } from '../api/client';
import type { components } from '../api/types';
import { useBringing } from '../bring/bringing';
import { TableForm, Told } from '../bring/table_form';
import { TakeButton } from '../bring/take_button';
import { ask } from '../route/router';
import { ShopFrame } from '../shop/frame';
import { words } from '../words';
import { loadPegboard } from './board_state';

type Report = components['schemas']['PiecesReport'];

/** A table of pieces: looked at first, with every line that would be refused, and added on a second tap. */
export function ImportPieces() {
  const { bring } = words.pegboard;
  const bringing = useBringing<Report>({
    draft: 'pieces',
    post: ({ text, unit, dry_run }) => call('post', '/pieces/import', { query: { unit, dry_run }, body: text }),
    isTaken: (report) => report.stored,
    afterwards: loadPegboard,
  });
  const { looked, done } = bringing;
  const takes = looked && looked.refused === 0 ? looked.added + looked.changed : 0;
  return (
    <ShopFrame
      room="pegboard"
      next={<TakeButton said={bring} takes={takes} bringing={bringing} />}
      aside={
        <button type="button" onClick={() => ask({ view: '' })}>
          {words.pegboard.to_board}
        </button>
      }
    >
      <TableForm said={bring} lines={8} bringing={bringing}>
        {looked ? <Told {...toldOf(looked, bring.would(looked))} /> : null}
        {done ? <Told {...toldOf(done, done.stored ? bring.did(done) : bring.none_taken)} /> : null}
      </TableForm>
    </ShopFrame>
  );
}

function toldOf(report: Report, lead: string) {
  const { bring } = words.pegboard;
  return {
    lead,
    doubt: report.refused > 0 && !report.stored ? bring.all_or_none : undefined,
    lines: report.lines
      .filter((one) => one.outcome === 'refused' || one.outcome === 'changed')
      .map(({ line, name, field, message }) => ({
        line,
        place: [name ? `${bring.line(line)}, ${name}` : bring.line(line), field].filter(Boolean).join(': '),
        message,
      })),
  };
}
