import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { setScene } from './scene';
import { done, freshFolder, type Json, newId, Served } from './shop';

const csvBody = { 'content-type': 'text/csv' };

/** A shop of its own, by what a table does to its pegboard. */
class Board {
  private constructor(
    readonly shop: Served,
    readonly by: string,
  ) {}

  static async open(file = join(freshFolder(), 'shop.sqlite')): Promise<Board> {
    const shop = await Served.start(file);
    return new Board(shop, (await setScene(shop)).by);
  }

  /** The same shop after it was stopped. */
  async again(): Promise<Board> {
    return new Board(await Served.start(this.shop.file), this.by);
  }

  path(query = '') {
    return `/pieces/import?by_person_id=${this.by}${query}`;
  }

  bring(csv: string, query = ''): Promise<Json> {
    return this.shop.want('POST', this.path(query), csv, csvBody);
  }

  refusedWhole(csv: string) {
    return this.shop.refusal('POST', this.path(), csv, csvBody);
  }

  async takenOut(): Promise<string> {
    return (await this.shop.want('GET', '/pieces.csv')).toString();
  }

  async pieces(): Promise<Json[]> {
    return (await this.shop.want('GET', '/pegboard')).map((line: Json) => line.piece);
  }

  async named(name: string): Promise<Json> {
    return (await this.pieces()).find((one) => one.name === name);
  }

  async seq(): Promise<number> {
    return (await this.shop.want('GET', '/health')).seq;
  }
}

/** A table as it stands in an editor: one line after the other. */
const table = (...lines: string[]) => `${lines.join('\n')}\n`;

/** What stands behind each refused line, as "3 bore". */
const refusals = (report: Json): string[] =>
  report.lines
    .filter((one: Json) => one.outcome === 'refused')
    .map(({ line, field }: Json) => [line, field].filter((part) => part !== '').join(' '));

let board: Board;
beforeAll(async () => {
  board = await Board.open();
});
afterAll(async () => {
  await board.shop.stop();
});

describe('a table of pieces', () => {
  test('goes out, comes back without a change, and hangs the same board in an empty shop', async () => {
    const first = await board.bring(
      table(
        'name;kind;hook;unit;bore;length;small;large;ring_inner;ring_outer;solid;free;damping;runout;note',
        'trip cone;cone;A1;in;1;1.18;2;3;;;;;;8,5;"hot; ""worn"""',
        'trip clamp;clamp;=B2;mm;25,4;48;;;108;130;;;;;',
        'trip spring;spring;;mm;26;60;;;;;8;60;;;',
        'trip ring;spacer;C1;mm;25,400001;9;;;;;;;yes;;',
      ),
    );
    expect(first).toMatchObject({ stored: true, added: 4, refused: 0 });
    const before = await board.pieces();
    const csv = await board.takenOut();
    expect(csv).toContain("'=B2");
    const last = await board.seq();
    const back = await board.bring(csv, '&unit=in');
    expect(back).toMatchObject({ stored: true, added: 0, changed: 0, refused: 0, known: before.length });
    expect(await board.pieces()).toEqual(before);
    expect(await board.seq()).toBe(last);

    const other = await Board.open();
    expect(await other.bring(csv, '&unit=in')).toMatchObject({ stored: true, added: before.length, refused: 0 });
    expect(await other.pieces()).toEqual(before);
    expect(await other.takenOut()).toBe(csv);
    await other.shop.stop();
  });

  test('is refused line by line, each by its heading, and then none of it is taken', async () => {
    const before = await board.pieces();
    const last = await board.seq();
    const report = await board.bring(
      table(
        'Piece,Type,Bore,Length,Small end,Large end,Damped',
        'sound,spacer,25.4,10,,,',
        'no bore,spacer,,10,,,',
        'word for a number,spacer,wide,10,,,',
        'upside down,cone,25.4,30,75,50,',
        'half a cone,cone,25.4,30,50,,',
        'no such kind,wedge,25.4,30,,,',
        'damping nut,nut,25.4,30,,,yes',
        'perhaps,spacer,25.4,30,,,perhaps',
        'sound,spacer,25.4,11,,,',
        ',spacer,25.4,11,,,',
        'below nothing,spacer,-25.4,11,,,',
        'more cells than headings,spacer,25,4,10,,,',
      ),
    );
    expect(report).toMatchObject({ stored: false, added: 1, refused: 11 });
    expect(refusals(report)).toEqual([
      '3 Bore',
      '4 Bore',
      '5 Small end',
      '6 Large end',
      '7 Type',
      '8 Damped',
      '9 Damped',
      '10 Piece',
      '11 Piece',
      '12 Bore',
      '13',
    ]);
    const messages = report.lines.filter((one: Json) => one.outcome === 'refused').map((one: Json) => one.message);
    for (const message of messages) expect(message).toMatch(/\w{3}/);
    expect(await board.pieces()).toEqual(before);
    expect(await board.seq()).toBe(last);
  });

  test('names the line of the file, whatever blank lines and line ends inside quotes come before it', async () => {
    const report = await board.bring(
      'name,kind,bore,length,note\r\n\r\nl1,spacer,25.4,9,"two\nlines"\r\n\r\nl2,spacer,x,9,\r\n',
    );
    expect(refusals(report)).toEqual(['6 bore']);
  });

  test('may have columns that nobody here knows; they are passed over', async () => {
    const report = await board.bring(table('price,name,kind,colour,bore,length', '12.50,odd column,spacer,red,25.4,7'));
    expect(report).toMatchObject({ stored: true, added: 1, refused: 0 });
    expect(await board.named('odd column')).toMatchObject({ bore_nm: 25_400_000, length_nm: 7_000_000 });
  });

  test.each<[string, string, string]>([
    ['nothing in it', '', ''],
    ['no column of names', 'kind,bore\nspacer,25.4\n', 'name'],
    ['no heading at all', 'ring,spacer,25.4,10\n', 'name'],
    ['one heading twice', 'name,bore,Bore (in)\na,1,1\n', 'Bore (in)'],
    ['a quote that never ends', 'name,kind\n"a,spacer\n', ''],
    ['zero bytes', 'name,kind\na\u0000,spacer\n', ''],
  ])('with %s is refused as a whole', async (_what, csv, field) => {
    const last = await board.seq();
    const refused = await board.refusedWhole(csv);
    expect(refused).toMatchObject({ status: 422, field });
    expect(refused.message.length).toBeGreaterThan(20);
    expect(await board.seq()).toBe(last);
  });

  test('reads inches and millimetres: behind the number, for the line, in the heading, or as asked', async () => {
    await board.bring(
      table(
        'name,kind,unit,bore (in),length',
        'u1,spacer,,1,10 mm',
        'u2,spacer,mm,25.4,10',
        'u3,spacer,in,1,"3/8"',
        'u4,spacer,,1 in,.5"',
        'u5,spacer,,1,250 thou',
        'u6,spacer,,1,1',
      ),
      '&unit=mm',
    );
    const sizes = Object.fromEntries(
      (await board.pieces()).map((one) => [one.name, [one.bore_nm, one.length_nm, one.unit]]),
    );
    expect(sizes.u1).toEqual([25_400_000, 10_000_000, 'mm']);
    expect(sizes.u2).toEqual([25_400_000, 10_000_000, 'mm']);
    expect(sizes.u3).toEqual([25_400_000, 9_525_000, 'in']);
    expect(sizes.u4).toEqual([25_400_000, 12_700_000, 'mm']);
    expect(sizes.u5).toEqual([25_400_000, 6_350_000, 'mm']);
    expect(sizes.u6).toEqual([25_400_000, 1_000_000, 'mm']);
    await board.bring(table('name,length', 'u6,2'), '&unit=in');
    expect((await board.named('u6')).length_nm).toBe(2_000_000); // in the piece's own unit, not in the table's
  });

  test('reads decimal commas between semicolons and in quotes, and asks where 1,234 may be either', async () => {
    await board.bring(table('name;kind;bore;length', 'c1;spacer;25,4;12,50'), '&unit=mm');
    await board.bring(table('name,kind,bore,length', 'c2,spacer,"25,4","12,50"'), '&unit=mm');
    for (const name of ['c1', 'c2']) {
      expect(await board.named(name)).toMatchObject({ bore_nm: 25_400_000, length_nm: 12_500_000 });
    }
    const asked = await board.bring(table('name,kind,bore,length', 'c3,spacer,25.4,"1,234.5"'), '&unit=mm');
    expect(refusals(asked)).toEqual(['2 length']);
    const many = await board.bring(table('name,kind,bore,length', 'c4,spacer,25,4,12,5'), '&unit=mm');
    expect(refusals(many)).toEqual(['2']);
    expect(many.lines[0].message).toContain('decimal comma');
  });

  test('keeps quotes, commas, line ends and inch marks of names and notes to the letter', async () => {
    const note = 'said "hot", then; cooled\nagain';
    await board.bring(`name,kind,bore,length,note\n"ring, 13/16"" wide",spacer,25.4,9,"${note.replace(/"/g, '""')}"\n`);
    expect(await board.named('ring, 13/16" wide')).toMatchObject({ note });
    expect(await board.bring(await board.takenOut())).toMatchObject({ changed: 0, refused: 0 });
  });

  test('changes a piece of the same name and says what, and leaves what has no heading as it is', async () => {
    await board.bring(table('name,kind,hook,bore,length,damping', 'change me,spacer,A1,25.4,10,yes'), '&unit=mm');
    const { id } = await board.named('change me');
    const report = await board.bring(table('name,hook,length', 'change me,C9,12'));
    expect(report).toMatchObject({ stored: true, added: 0, changed: 1 });
    expect(report.lines[0]).toMatchObject({ outcome: 'changed', message: expect.stringContaining('hook, length') });
    expect(await board.named('change me')).toMatchObject({ id, hook: 'C9', length_nm: 12_000_000, damping: true });
  });

  test('is only looked at when that is asked, and then tells the same', async () => {
    const csv = table('name,kind,bore,length', 'looked at,spacer,25.4,10');
    const last = await board.seq();
    const looked = await board.bring(csv, '&dry_run=true');
    expect(looked).toMatchObject({ stored: false, added: 1, refused: 0 });
    expect(await board.seq()).toBe(last);
    expect(await board.bring(csv)).toEqual({ ...looked, stored: true });
  });

  test('wants somebody who brings it', async () => {
    const csv = table('name,kind,bore,length', 'nobody’s,spacer,25.4,10');
    const unsigned = await board.shop.refusal('POST', '/pieces/import', csv, csvBody);
    expect(unsigned).toMatchObject({ status: 422, field: 'by_person_id' });
    const stranger = await board.shop.refusal('POST', `/pieces/import?by_person_id=${newId()}`, csv, csvBody);
    expect(stranger.field).toBe('by_person_id');
    expect(await board.named('nobody’s')).toBeUndefined();
  });
});

describe('a huge table', () => {
  const rows = (count: number, name: string) =>
    Array.from({ length: count }, (_, k) => `${name} ${k},spacer,25.4,${1 + (k % 90)}`);

  test('of 5,000 pieces is taken whole, and one of more is refused whole', async () => {
    const board = await Board.open();
    expect(await board.bring(table('name,kind,bore,length', ...rows(5_000, 'h')))).toMatchObject({
      stored: true,
      added: 5_000,
    });
    expect(await board.pieces()).toHaveLength(5_000);
    expect(await board.bring(await board.takenOut())).toMatchObject({ known: 5_000, changed: 0, refused: 0 });
    const more = await board.refusedWhole(table('name,kind,bore,length', ...rows(5_001, 'm')));
    expect(more).toMatchObject({ status: 422, code: 'too_many' });
    expect(await board.pieces()).toHaveLength(5_000);
    await board.shop.stop();
  });

  test('of more bytes than a request may have is refused, and the shop goes on', async () => {
    const board = await Board.open();
    const got = await board.shop
      .raw('POST', board.path(), `name,note\n${'a,'.padEnd(9_000_000, 'b')}\n`, csvBody)
      .then(({ status }) => status)
      .catch(() => 'closed' as const);
    expect([413, 'closed']).toContain(got);
    expect(await board.pieces()).toEqual([]);
    await board.shop.stop();
  });

  test('with one bad line at its end leaves nothing of all the good ones', async () => {
    const board = await Board.open();
    const report = await board.bring(table('name,kind,bore,length', ...rows(2_000, 'g'), 'bad,spacer,,1'));
    expect(refusals(report)).toEqual(['2002 bore']);
    expect(report.added).toBe(2_000);
    expect(await board.pieces()).toEqual([]);
    await board.shop.stop();
  });

  test('is there whole or not at all when the program is killed while it is taken', async () => {
    let board = await Board.open();
    const count = 3_000;
    let stored = 0;
    for (let kill = 0; kill < 8; ++kill) {
      const csv = table('name,kind,bore,length', ...rows(count, `k${kill}`));
      const sent = board.shop.raw('POST', board.path(), csv, csvBody).catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, 10 + 25 * kill));
      await board.shop.stop('SIGKILL');
      const answered = (await sent)?.body?.stored === true;
      board = await board.again();
      const names = (await board.pieces()).map((one) => one.name);
      const here = names.filter((name) => name.startsWith(`k${kill} `)).length;
      expect([0, count]).toContain(here);
      if (answered) expect(here).toBe(count);
      stored += here;
      expect(names).toHaveLength(stored);
    }
    await board.shop.stop();
    expect(done(['check', '--shop', board.shop.file])).toContain('nothing wrong');
  });
});

describe('two tablets', () => {
  test('that bring the same table at once hang each piece once', async () => {
    const csv = table(
      'name,kind,bore,length',
      ...Array.from({ length: 2_000 }, (_, k) => `t ${k},spacer,25.4,${1 + (k % 90)}`),
    );
    const reports = await Promise.all(Array.from({ length: 4 }, () => board.bring(csv)));
    const names = (await board.pieces()).map((one) => one.name).filter((name) => name.startsWith('t '));
    expect(new Set(names).size).toBe(2_000);
    expect(names).toHaveLength(2_000);
    expect(reports.reduce((sum, one) => sum + one.added, 0)).toBe(2_000);
    expect(reports.reduce((sum, one) => sum + one.known, 0)).toBe(6_000);
  });

  test('of which one mends a piece by hand while the other brings a table do not undo what was mended', async () => {
    const names = Array.from({ length: 2_000 }, (_, k) => `b ${k}`);
    await board.bring(table('name,kind,bore,length', ...names.map((name) => `${name},spacer,25.4,10`)));
    const piece = await board.named('b 1999');
    const path = `/pieces/${piece.id}?by_person_id=${board.by}`;
    const notes = board.bring(table('name,note', ...names.map((name) => `${name},from the table`)));
    for (let k = 1; k <= 40; ++k) await board.shop.want('PUT', path, { ...piece, hook: `H${k}` });
    expect((await notes).changed).toBe(2_000);
    expect(await board.named(piece.name)).toMatchObject({ hook: 'H40', length_nm: 10_000_000 });
  });

  test('that hang two pieces under one name each learn of it, and the board stays as it was', async () => {
    const body = (length_nm: number) => ({
      id: newId(),
      name: 'shim',
      kind: 'spacer',
      hook: '',
      unit: 'mm',
      bore_nm: 25_400_000,
      length_nm,
      note: '',
      active: true,
    });
    for (const piece of [body(1_000_000), body(2_000_000)]) {
      await board.shop.want('PUT', `/pieces/${piece.id}?by_person_id=${board.by}`, piece);
    }
    const before = await board.pieces();
    const report = await board.bring(table('name,length', 'shim,3'));
    expect(refusals(report)).toEqual(['2 name']);
    expect(report.lines[0].message).toContain('id');
    expect(await board.pieces()).toEqual(before);
  });
});
