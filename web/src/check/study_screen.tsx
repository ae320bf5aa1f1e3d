import { Screen } from '../shell/screen';
import { shop } from '../state/shop';
import { words } from '../words';
import { LatheStudy } from './lathe_study';

/** The page of one lathe's dials. */
export function StudyScreen({ id }: { id: string }) {
  const said = words.dials.study;
  const lathe = shop.value?.lathes.find((one) => one.id === id);
  return (
    <Screen
      name="study"
      title={lathe ? said.of(lathe.name) : said.unknown}
      aside={
        <a class="button" href="/shop/lathes">
          {said.back}
        </a>
      }
    >
      {lathe ? <LatheStudy lathe_id={lathe.id} /> : null}
    </Screen>
  );
}
