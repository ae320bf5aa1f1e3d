import { computed } from '@preact/signals';
import { person } from './shop';

/** Whether a teacher or a lead hand works at this tablet. The shop itself holds everybody to it; the page only shows. */
export const leads = computed(() => person.value?.role === 'teacher' || person.value?.role === 'lead_hand');
