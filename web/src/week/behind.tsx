import { Opens } from '../controls/opens';
import { stepAddress } from '../shell/step_path';
import { words } from '../words';

export const JobLinks = ({ numbers }: { numbers: readonly number[] }) => (
  <>
    {numbers.map((number) => (
      <a key={number} class="behind-job" href={stepAddress(number, 'record')}>
        {words.week.job(number)}
      </a>
    ))}
  </>
);

export interface Source {
  name: string;
  numbers: readonly number[];
}

/** How a figure is counted, and the records behind it, one line for each bar of its picture. */
export function Behind({ basis, sources }: { basis: string | undefined; sources: readonly Source[] }) {
  const told = sources.filter((one) => one.numbers.length > 0);
  if (!basis && told.length === 0) return null;
  return (
    <Opens title={words.week.behind}>
      {basis ? <p class="small soft">{basis}</p> : null}
      {told.length > 0 ? (
        <dl class="behind">
          {told.map((one) => (
            <div key={one.name}>
              <dt>{one.name}</dt>
              <dd>
                <JobLinks numbers={one.numbers} />
              </dd>
            </div>
          ))}
        </dl>
      ) : null}
    </Opens>
  );
}
