import type {
  Action,
  FeltIn,
  FindingKind,
  Instrument,
  Job,
  LimitSource,
  Limits,
  MeasuringPlan,
  Person,
  Quantity,
  Side,
  Stage,
  WaitsFor,
} from '../api/schema';

/** The API's fixed words, as they are said here. */
const quantity: Record<Quantity, string> = {
  thickness: 'Thickness',
  runout_outboard: 'Runout, outboard',
  runout_inboard: 'Runout, inboard',
  scoring_outboard: 'Deepest groove, outboard',
  scoring_inboard: 'Deepest groove, inboard',
  roughness_outboard: 'Roughness Ra, outboard',
  roughness_inboard: 'Roughness Ra, inboard',
  bore: 'Centre bore',
  hat_height: 'Hat height',
  cheek_outboard: 'Face to vent slot, outboard',
  cheek_inboard: 'Face to vent slot, inboard',
  bearing_play: 'Bearing play',
  hub_runout: 'Runout of the hub',
  diameter: 'Diameter',
};
const side: Record<Side, string> = { left: 'Left', right: 'Right' };
const axle: Record<Job['axle'], string> = { front: 'front axle', rear: 'rear axle' };
const stage: Record<Stage, string> = {
  before: 'Before the cut',
  after: 'After the cut',
  on_car: 'On the car as it came',
  refit: 'Back on the car',
};
const turning: Record<MeasuringPlan['turning'], string> = { clockwise: 'clockwise', anticlockwise: 'anticlockwise' };
const runoutPlace: Record<MeasuringPlan['runout_place'], string> = { on_car: 'on the car', on_arbor: 'on the arbor' };
const complaint: Record<Job['complaint'], string> = {
  pulsation: 'Pulsation',
  noise: 'Noise',
  pull: 'Pull',
  pad_change: 'Pad change',
  inspection: 'Inspection',
  practice: 'Practice',
};
const feltIn: Record<FeltIn, string> = {
  pedal: 'Pedal',
  steering_wheel: 'Steering wheel',
  seat: 'Seat',
  body: 'Whole body',
};
const action: Record<Action, string> = {
  leave: 'Leave it',
  cut: 'Cut it',
  replace: 'Replace it',
  measure_again: 'Measure again',
};
const limit: Record<keyof Limits, string> = {
  nominal: 'Nominal',
  machine_to: 'Machine-to',
  discard: 'Discard',
  variation: 'Thickness variation',
  runout: 'Runout',
  scoring: 'Scoring',
  finish_ra: 'Finish Ra',
  out_of_round: 'Out of round',
  taper: 'Taper along the band',
};
const limitSource: Record<LimitSource, string> = {
  cast_on_part: 'cast on the part',
  service_information: 'service information',
  house_rule: 'house rule',
  common_practice: 'common practice',
  unknown: 'source unknown',
};
const role: Record<Person['role'], string> = {
  teacher: 'teacher',
  student: 'student',
  lead_hand: 'lead hand',
  visitor: 'visitor',
};
const instrumentKind: Record<Instrument['kind'], string> = {
  micrometer: 'micrometer',
  dial_indicator: 'dial indicator',
  depth_gauge: 'depth gauge',
  caliper: 'caliper',
  roughness_tester: 'roughness tester',
  drum_gauge: 'drum gauge',
};
const finding: Record<FindingKind, string> = {
  nothing_found: 'Nothing found',
  crack: 'Crack',
  heat_check: 'Heat check',
  hard_spot: 'Hard spot',
  blueing: 'Blueing',
  broken_fin: 'Broken fin',
  vent_rust: 'Rust in the vents',
  rust_lip: 'Rust lip',
  deep_pitting: 'Deep pitting',
  loose_hat: 'Loose hat',
  worn_bearing_race: 'Worn bearing race',
  other: 'Something else',
};
const waitsFor: Record<WaitsFor, string> = {
  limits: 'limits',
  findings: 'a look at the faces',
  readings: 'readings',
  decision: 'a decision',
  mount: 'its mount',
  plan: 'a plan of the passes',
  cut: 'the cut',
  finish: 'sanding and washing',
  readings_after: 'readings after the cut',
  refit: 'going back on the car',
  seal: 'a signature',
  nothing: 'nothing',
};

export const trade = {
  quantity,
  side,
  axle,
  stage,
  turning,
  runoutPlace,
  complaint,
  feltIn,
  action,
  limit,
  limitSource,
  role,
  instrumentKind,
  finding,
  waitsFor,
  rotor: (which: Side) => `${side[which]} rotor`,
  on_radius: (depth: string, change: string) => `${depth} on the radius, ${change} on the diameter`,
  until_worn: { unit: { km: 'km', year: 'years' }, between: (low: string, high: string) => `${low} to ${high}` },
};
