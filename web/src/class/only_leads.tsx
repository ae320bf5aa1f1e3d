import { Screen } from '../shell/screen';
import { words } from '../words';

/** In the place of what the shop tells whoever leads alone. */
export const OnlyLeads = () => (
  <Screen
    name="class"
    title={words.classes.only_leads}
    next={
      <a class="button main" href="/class">
        {words.classes.title}
      </a>
    }
  >
    {null}
  </Screen>
);
