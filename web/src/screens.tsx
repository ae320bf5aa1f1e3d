import type { ComponentType } from 'preact';
import { Arrival, NewJob } from './arrival/arrival';
import { Board } from './board/board';
import { Car } from './car/car';
import { Chatter, ChatterOfJob } from './chatter/chatter';
import { Check } from './check/check';
import { StudyScreen } from './check/study_screen';
import { ClassRoom } from './class/class_room';
import { Roster } from './class/roster';
import { StudentPage } from './class/student';
import { CompetenceGrid } from './competences/grid';
import { CompetenceList } from './competences/list';
import { EvidenceOf, OwnEvidence } from './competences/sheet';
import { CutByHand } from './cut/cut';
import { Detective } from './detective/detective';
import { Finish } from './finish/finish';
import { Guide } from './guide/guide';
import { LimitsScreen } from './limits/limits';
import { Look } from './look/look';
import { MeasureScreen } from './measure/measure_screen';
import { MountScreen } from './mount/mount';
import { Pegboard } from './pegboard/pegboard';
import { MyPermit } from './permit/permit';
import { SafetyPointList } from './permit/points_list';
import { PermitRuleScreen } from './permit/rule';
import { SafetyPoints } from './permit/safety';
import { Plan } from './plan/plan';
import { PracticeBench } from './practice/bench';
import { Practice } from './practice/practice';
import { QueueScreen } from './queue/queue';
import { Record } from './record/record';
import { CHECK_ADDRESS, RecordCheck } from './record/record_check';
import { Refit } from './refit/refit';
import { Road } from './road/road';
import { Appearance } from './shop/appearance';
import { Backups } from './shop/backups';
import { Edges } from './shop/edges';
import { Exports } from './shop/exports';
import { Shop } from './shop/frame';
import { Gauge } from './shop/gauge';
import { Instruments } from './shop/instruments';
import { Lathes } from './shop/lathes';
import { People } from './shop/people';
import { Plates } from './shop/plates';
import { ReferenceParts } from './shop/reference_parts';
import { Rules } from './shop/rules';
import { MeasureInStudy } from './studies/measure';
import { Studies } from './studies/studies';
import { StudyRoom } from './studies/study';
import { StudyForm } from './studies/study_form';
import { Verdict } from './verdict/verdict';
import { WeekScreen } from './week/week';

/**
 * Which screen stands at which address. What a colon names comes to the screen as a property. Under `/jobs/:number/`
 * the job is read before its screen is shown, and the step path stands over it.
 */
export type Room = ComponentType<Record<string, string>>;

const Before: Room = () => <MeasureScreen stage="before" />;
const After: Room = () => <MeasureScreen stage="after" />;

export const screens: readonly (readonly [pattern: string, screen: Room])[] = [
  ['/', Board],
  ['/jobs/new', NewJob],
  ['/jobs/:number/arrival', Arrival],
  ['/jobs/:number/detective', Detective],
  ['/jobs/:number/limits', LimitsScreen],
  ['/jobs/:number/look', Look],
  ['/jobs/:number/car', Car],
  ['/jobs/:number/before', Before],
  ['/jobs/:number/verdict', Verdict],
  ['/jobs/:number/mount', MountScreen],
  ['/jobs/:number/plan', Plan],
  ['/jobs/:number/chatter', ChatterOfJob],
  ['/jobs/:number/cut', Guide],
  ['/jobs/:number/finish', Finish],
  ['/jobs/:number/by_hand', CutByHand],
  ['/jobs/:number/after', After],
  ['/jobs/:number/check', Check],
  ['/jobs/:number/refit', Refit],
  ['/jobs/:number/road', Road],
  ['/jobs/:number/record', Record],
  [CHECK_ADDRESS, RecordCheck],
  ['/chatter', Chatter],
  ['/practice', Practice],
  ['/practice/:run', PracticeBench],
  ['/studies', Studies],
  ['/studies/new', StudyForm],
  ['/studies/:id', StudyRoom as Room],
  ['/studies/:id/measure', MeasureInStudy as Room],
  ['/class', ClassRoom],
  ['/class/:person', StudentPage],
  ['/class/:class/roster', Roster],
  ['/class/:class/competences', CompetenceGrid],
  ['/class/:person/evidence', EvidenceOf],
  ['/evidence', OwnEvidence],
  ['/competences', CompetenceList],
  ['/permit', MyPermit],
  ['/permit/safety', SafetyPoints],
  ['/permit/points', SafetyPointList],
  ['/permit/rule', PermitRuleScreen],
  ['/week', WeekScreen],
  ['/lathes/:id/queue', QueueScreen],
  ['/shop', Shop],
  ['/shop/people', People],
  ['/shop/instruments', Instruments],
  ['/shop/reference-parts', ReferenceParts],
  ['/shop/lathes', Lathes],
  ['/shop/lathes/:id/study', StudyScreen as Room],
  ['/shop/pegboard', Pegboard],
  ['/shop/edges', Edges],
  ['/shop/plates', Plates],
  ['/shop/rules', Rules],
  ['/shop/backups', Backups],
  ['/shop/exports', Exports],
  ['/shop/appearance', Appearance],
  ['/shop/gauge', Gauge],
];
