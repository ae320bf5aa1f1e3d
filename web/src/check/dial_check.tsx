import type { components } from '../api/types';
import { Opens } from '../controls/opens';
import { Figure } from '../pictures/figure';
import { type HowShown, lengthOfMm, percent } from '../show/length';
import { typeset } from '../show/typeset';
import { words } from '../words';
import { FindingHead } from './finding_head';
import { likelyFirst, sharedLead, withoutLead } from './findings';

type Schemas = components['schemas'];
export type DialCheckAnswer = Schemas['CalcDialcheckOutput'];
type Balance = Schemas['CalcDialcheckBalance'];
type Finding = Schemas['CalcDialcheckFinding'];

const ROWS = ['outboard', 'inboard', 'sum'] as const;

interface Props {
  answer: DialCheckAnswer;
  how: HowShown;
  lathe_id: string | null;
}

/** What the dials should have taken beside what is gone: the difference, large, and what may explain it. */
export function DialCheck({ answer, how, lathe_id }: Props) {
  const { dials } = words;
  const um = (value: number) => lengthOfMm(value / 1000, how);
  return (
    <div class="dial-check">
      <h3>{dials.title}</h3>
      <p>{answer.agrees ? dials.agrees : dials.differs}</p>
      <Difference balance={answer.sum} how={how} />
      <Balances answer={answer} how={how} />
      {answer.findings.length > 0 ? <Findings findings={answer.findings} /> : null}
      {answer.cannot_tell_apart.length > 1 ? (
        <p class="doubt">
          {dials.cannot_tell(answer.cannot_tell_apart.map((code) => dials.codes[code] ?? code).join(', '))}
        </p>
      ) : null}
      <Opens title={dials.working}>
        {ROWS.map((row) => (
          <p key={row} class="small figures">
            {dials.sides[row]}: {dials.expected_is(um(answer[row].dialled_um), um(answer[row].touch_loss_um))}
          </p>
        ))}
        {answer.notes.map((one) => (
          <p key={one} class="small">
            {typeset(one)}
          </p>
        ))}
        {answer.priors.length > 0 ? (
          <>
            <p class="small soft">
              {dials.priors} ({answer.priors_basis})
            </p>
            <ul class="small">
              {answer.priors.map((one) => (
                <li key={one.code}>
                  {dials.codes[one.code] ?? one.code}: {percent(one.p)}. {one.meaning}
                </li>
              ))}
            </ul>
          </>
        ) : null}
      </Opens>
      {lathe_id ? (
        <p>
          <a class="button" href={`/shop/lathes/${lathe_id}/study`}>
            {dials.to_study}
          </a>
        </p>
      ) : null}
    </div>
  );
}

function Difference({ balance, how }: { balance: Balance; how: HowShown }) {
  const { dials } = words;
  const difference = balance.difference_um;
  if (difference === null || difference === undefined) return null;
  const u = Math.hypot(balance.u_expected_um, balance.u_measured_um ?? 0);
  const word = Math.abs(difference) < 0.5 ? dials.equal : difference < 0 ? dials.less : dials.more;
  return (
    <div class="difference">
      <p class="difference-figure figures">{lengthOfMm(difference / 1000, { ...how, sign: true })}</p>
      <p>{word}</p>
      <p class="small soft figures">
        {dials.twice_u(lengthOfMm((2 * u) / 1000, how))}
        {balance.z === null || balance.z === undefined ? '' : `; ${dials.z(Math.abs(balance.z).toFixed(1))}`}
      </p>
    </div>
  );
}

/** Expected and measured of each side and of both, to one scale, each with twice its uncertainty. */
function Balances({ answer, how }: { answer: DialCheckAnswer; how: HowShown }) {
  const { dials } = words;
  const most = Math.max(
    1,
    ...ROWS.flatMap((row) => {
      const one = answer[row];
      return [one.expected_um + 2 * one.u_expected_um, (one.measured_um ?? 0) + 2 * (one.u_measured_um ?? 0)];
    }),
  );
  const um = (value: number | null | undefined, sign = false) =>
    value === null || value === undefined ? '–' : lengthOfMm(value / 1000, { ...how, sign });
  const rows = ROWS.map((row) => {
    const one = answer[row];
    return [dials.sides[row], um(one.expected_um), um(one.measured_um), um(one.difference_um, true)];
  });
  return (
    <Figure
      name={dials.picture}
      kind="balances"
      says={rows.map((row) => row.join(', ')).join('. ')}
      table={{ head: Object.values(dials.columns), rows }}
    >
      {ROWS.map((row) => {
        const one = answer[row];
        return (
          <div class="balance" key={row} aria-hidden="true">
            <span class="balance-side">{dials.sides[row]}</span>
            <Bar kind="expected" value={one.expected_um} u={one.u_expected_um} most={most} text={um(one.expected_um)} />
            {one.measured_um === null || one.measured_um === undefined ? (
              <span class="small soft balance-none">{dials.not_measured}</span>
            ) : (
              <Bar
                kind="measured"
                value={one.measured_um}
                u={one.u_measured_um ?? 0}
                most={most}
                text={um(one.measured_um)}
              />
            )}
          </div>
        );
      })}
    </Figure>
  );
}

interface BarProps {
  kind: 'expected' | 'measured';
  value: number;
  u: number;
  most: number;
  text: string;
}

function Bar({ kind, value, u, most, text }: BarProps) {
  const x = (um: number) => `${(100 * Math.min(Math.max(um, 0), most)) / most}%`;
  return (
    <span class="balance-bar">
      <span class="small soft">{words.dials[kind]}</span>
      <svg class={`balance-${kind}`} width="100%" height="20" aria-hidden="true">
        <rect x="0" y="4" width={x(value)} height="12" />
        <line x1={x(value - 2 * u)} x2={x(value + 2 * u)} y1="10" y2="10" />
        <line x1={x(value - 2 * u)} x2={x(value - 2 * u)} y1="5" y2="15" />
        <line x1={x(value + 2 * u)} x2={x(value + 2 * u)} y1="5" y2="15" />
      </svg>
      <span class="figures balance-value">{text}</span>
    </span>
  );
}

/** The probable ones at once, the others behind a word; what they have in common is said once. */
function Findings({ findings }: { findings: readonly Finding[] }) {
  const { dials } = words;
  const { likely, rest } = likelyFirst(findings);
  const lead = sharedLead(findings.map((one) => one.text));
  const list = (some: readonly Finding[]) => (
    <ol class="findings">
      {some.map((one) => (
        <FindingLine key={one.code + (one.side ?? '')} finding={one} lead={lead} />
      ))}
    </ol>
  );
  return (
    <>
      <h3>{dials.findings}</h3>
      {lead ? <p class="small soft">{typeset(lead).replace(/;$/, '.')}</p> : null}
      {list(likely)}
      {rest.length > 0 ? <Opens title={dials.less_probable(rest.length)}>{list(rest)}</Opens> : null}
    </>
  );
}

function FindingLine({ finding, lead }: { finding: Finding; lead: string }) {
  const { dials } = words;
  const side =
    finding.side === 'outboard' || finding.side === 'inboard' ? `, ${dials.sides[finding.side].toLowerCase()}` : '';
  return (
    <li class="finding">
      <FindingHead name={`${dials.codes[finding.code] ?? finding.code}${side}`} p={finding.p} />
      <p>{typeset(withoutLead(finding.text, lead))}</p>
      <p>
        <strong>{dials.check}:</strong> {typeset(finding.check)} <span class="small soft">{finding.basis}</span>
      </p>
    </li>
  );
}
