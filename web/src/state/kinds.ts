/** Which entries of the shop's journal change what a screen is told: what its standing question rests on. */
export const CLASSES = /^(school_class|membership|person)\./;
export const PERMITS = /^(permit|permit_rule|safety_answer|safety_point|supervised_cut|person)\.|^study\./;
export const PERMIT_RULE = /^permit_rule\./;
export const SAFETY_POINTS = /^safety_(point|answer)\./;
export const CUTS = /^supervised_cut\./;
export const COMPETENCES = /^competence\./;
export const EVIDENCE = /^(competence|evidence|study|school_class|membership|person)\.|^job\.(opened|sealed)/;
export const STUDIES = /^study(_reading)?\./;
export const REFERENCE_PARTS = /^reference_part\./;
/** Where a job stands says how long it will be at the lathe, and what can be done meanwhile. */
export const QUEUE =
  /^(queue_entry|job|part|plan|cut|pass|step|mount|decision|finding|reading|refit|lathe|person)\.|^journal\.brought/;
/** Runs and sets of the practice bench. */
export const PRACTICE = /^practice_/;
/** All that a week counts. */
export const WEEK =
  /^(job|part|plan|reading|zero_check|finding|decision|cut|pass|step|mount|refit|amendment|corner|insert|queue_entry|evidence|competence|safety_answer|study|permit|person)\./;
