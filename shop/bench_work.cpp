#include "shop/bench_work.hpp"

#include <algorithm>
#include <numbers>
#include <set>

#include "core/drum/bore_plan.hpp"
#include "core/runout/scratch.hpp"
#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/places.hpp"
#include "shop/progress.hpp"
#include "shop/stacks.hpp"
#include "shop/words.hpp"

/// What is done to a part at the lathe.
namespace brakewright::shop {

namespace {

const Part& part_of(const JobFile& file, const Uuid& part_id) {
  const Part* part = find(file.parts, part_id);
  if (part == nullptr) throw RuleError("unknown_part", "part_id", "this job has no such part");
  return *part;
}

bool is_blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

void expect_cut_decided(const JobFile& file) {
  if (file.decisions.empty() || file.decisions.back().action != Action::cut) {
    throw RuleError("not_decided", "part_id", "the part goes on the lathe once its cut was decided; decide first");
  }
}

[[noreturn]] void id_taken(const std::string& what) {
  throw RuleError("id_taken", "id", "another " + what + " has this id");
}

Booking booked(const std::vector<Booking>& all, const Uuid& piece_id, bool& found) {
  for (const Booking& booking : all) {
    if (booking.piece_id != piece_id) continue;
    found = true;
    return booking;
  }
  found = false;
  return {};
}

/// Fills in what the trace, the swing or the marks say.
void work_out(MountProof& proof) {
  if (proof.kind == ProofKind::scratch) {
    std::vector<ScratchMark> marks;
    for (const ProofMark& mark : proof.marks) marks.push_back({mark.centre_deg, mark.arc_deg, mark.infeed_um});
    const ScratchReading read = read_scratches(marks);
    proof.runout_um = read.marks.back().runout_um;
    proof.upper_bound = read.marks.back().upper_bound;
    if (read.part && read.mount) {
      proof.part_runout_um = read.part->runout_um;
      proof.part_high_deg = read.part->high_deg;
      proof.mount_runout_um = read.mount->runout_um;
      proof.mount_high_deg = read.mount->high_deg;
    }
  } else if (!proof.trace_um.empty()) {
    if (proof.trace_um.size() < 3) {
      throw InputError("too_few", "trace_um", "a trace has three readings or more, evenly spaced round the turn");
    }
    const auto [low, high] = std::minmax_element(proof.trace_um.begin(), proof.trace_um.end());
    proof.runout_um = *high - *low;
  } else if (proof.runout) {
    proof.runout_um = proof.runout->value.um();
  } else {
    throw InputError("missing", "runout", "say the whole swing of the indicator, or its readings round the turn");
  }
  if (proof.runout_um < 0 || proof.runout_um > 10'000) {
    throw InputError("out_of_range", proof.runout ? "runout" : "trace_um", "a runout is from 0 to 10 mm");
  }
  proof.costs_um = proof.mount_runout_um.value_or(proof.runout_um);
}

}  // namespace

StackAdvice Shop::stacks(const Uuid& job_id, const Uuid& part_id, std::size_t count) {
  JobFile asked;
  std::optional<Lathe> lathe;
  std::vector<Piece> pieces;
  {
    const std::lock_guard lock(guard_);
    asked = file(job_id);
    if (asked.job.lathe_id) {
      if (const Lathe* known = find(known_lathes(), *asked.job.lathe_id)) lathe = *known;
    }
    pieces = pieces_for(job_id, store_.pieces(), store_.last_bookings());
  }
  return advise_stacks(asked, part_of(asked, part_id), lathe ? &*lathe : nullptr, pieces, count);
}

Mount Shop::checked_mount(const JobFile& present, const NewMount& wanted) {
  const Part& part = part_of(present, wanted.part_id);
  expect_lathe(wanted.lathe_id, "lathe_id");
  if (wanted.piece_ids.empty()) throw InputError("too_few", "piece_ids", "say which pieces went on the arbor");
  const auto all = store_.pieces();
  const auto last = store_.last_bookings();
  std::vector<Piece> pieces;
  std::set<Uuid> seen;
  for (std::size_t k = 0; k < wanted.piece_ids.size(); ++k) {
    const std::string field = "piece_ids[" + std::to_string(k) + "]";
    const Piece* piece = find(all, wanted.piece_ids[k]);
    if (piece == nullptr) throw RuleError("unknown_piece", field, "no piece of this shop has this id");
    if (!seen.insert(piece->id).second) throw InputError("duplicate_id", field, piece->name + " is in it twice");
    bool found = false;
    const Booking booking = booked(last, piece->id, found);
    if (found && booking.kind == BookingKind::taken && booking.job_id != present.job.id) {
      throw RuleError("in_use", field, piece->name + " is in use elsewhere; bring it back to the pegboard first");
    }
    pieces.push_back(*piece);
  }
  Mount made{.id = wanted.id,
             .job_id = present.job.id,
             .part_id = part.id,
             .lathe_id = wanted.lathe_id,
             .piece_ids = wanted.piece_ids,
             .reason = wanted.reason};
  const OwnStackAdvice advice = check_own_stack(present, part, find(known_lathes(), wanted.lathe_id), pieces);
  if (const auto& stack = advice.answer.stack) {
    made.length_mm = stack->length_mm;
    made.q = stack->q;
    made.why = stack->why;
  } else if (is_blank(wanted.reason)) {
    const std::string why =
        advice.missing.empty()
            ? "these pieces in this order keep not to the rules of mounting: " + advice.answer.broken.front().text
            : "whether these pieces fit cannot be told: " + advice.missing.front() + " is unknown";
    throw RuleError("breaks_a_rule", "piece_ids", why + "; say in words why it is right all the same");
  }
  return made;
}

void Shop::book_for(const Mount& mount, const JobFile& present, const Uuid& by) {
  const auto last = store_.last_bookings();
  const auto is_out = [&](const Uuid& piece_id) {
    bool found = false;
    const Booking booking = booked(last, piece_id, found);
    return found && booking.kind == BookingKind::taken && booking.job_id == present.job.id;
  };
  const auto book_one = [&](const Uuid& piece_id, BookingKind kind) {
    put_booking({.id = new_id(), .piece_id = piece_id, .kind = kind, .job_id = present.job.id}, by);
  };
  std::set<Uuid> before;
  for (const Mount& earlier : present.mounts) {
    if (earlier.part_id == mount.part_id) before.insert(earlier.piece_ids.begin(), earlier.piece_ids.end());
  }
  for (const Uuid& piece_id : mount.piece_ids) {
    if (!is_out(piece_id)) book_one(piece_id, BookingKind::taken);
    before.erase(piece_id);
  }
  for (const Uuid& piece_id : before) {
    if (is_out(piece_id)) book_one(piece_id, BookingKind::returned);
  }
}

Mount Shop::record_mount(const Uuid& job_id, const NewMount& wanted, const Uuid& by) {
  check(wanted);
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const Mount* stored = find(present.mounts, wanted.id)) {
      if (stored->part_id == wanted.part_id && stored->piece_ids == wanted.piece_ids) return *stored;
      id_taken("mount");
    }
    expect_cut_decided(present);
    Mount made = checked_mount(present, wanted);
    made.by_person_id = by;
    made.at = surroundings_.now();
    book_for(made, present, by);
    store_.put(made);
    record("mount.recorded", job_id, made.id, json_text(made), by);
    present.mounts.push_back(made);
    return made;
  });
}

MountProof Shop::record_proof(const Uuid& job_id, const NewMountProof& wanted, const Uuid& by) {
  check(wanted);
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const MountProof* stored = find(present.mount_proofs, wanted.id)) {
      if (stored->part_id == wanted.part_id && stored->kind == wanted.kind && stored->trace_um == wanted.trace_um &&
          stored->marks == wanted.marks && stored->runout == wanted.runout) {
        return *stored;
      }
      id_taken("proof");
    }
    part_of(present, wanted.part_id);
    MountProof made{.id = wanted.id, .job_id = job_id, .part_id = wanted.part_id, .kind = wanted.kind};
    made.runout = wanted.runout;
    made.trace_um = wanted.trace_um;
    made.marks = wanted.marks;
    made.goes_on = wanted.goes_on;
    made.reason = wanted.reason;
    made.allowed_um = store_.settings().cutting.mount_runout_max_um;
    work_out(made);
    if (made.goes_on && made.runout_um > made.allowed_um && is_blank(made.reason)) {
      throw RuleError("reason_needed", "reason",
                      "the part runs out more than the shop's rule allows before a cut; going on needs its reason in "
                      "words");
    }
    made.by_person_id = by;
    made.at = surroundings_.now();
    store_.put(made);
    record("mount.proven", job_id, made.id, json_text(made), by);
    present.mount_proofs.push_back(made);
    return made;
  });
}

void Shop::wear_corner(const std::optional<Uuid>& corner_id, double cut_m, const Uuid& by) {
  if (!corner_id) return;
  const auto all = store_.corners();
  const Corner* corner = find(all, *corner_id);
  if (corner == nullptr) throw RuleError("unknown_corner", "corner_id", "no insert of this shop has this corner");
  if (cut_m <= 0) return;
  Corner next = *corner;
  next.used_m += cut_m;
  store_.put(next);
  record("corner.used", {}, next.id, json_text(next), by);
}

Pass Shop::record_pass(const Uuid& job_id, const NewPass& wanted, const Uuid& by) {
  check(wanted);
  if (wanted.ended_at < wanted.began_at) throw InputError("out_of_range", "ended_at", "must not be before began_at");
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const Pass* stored = find(present.passes, wanted.id)) {
      if (stored->part_id == wanted.part_id && stored->outboard_marks == wanted.outboard_marks &&
          stored->inboard_marks == wanted.inboard_marks && stored->began_at == wanted.began_at) {
        return *stored;
      }
      id_taken("pass");
    }
    const Part& part = part_of(present, wanted.part_id);
    expect_cut_decided(present);
    check_marks(part, wanted.inboard_marks, "inboard_marks");
    if (wanted.plan_id && find(present.cut_plans, *wanted.plan_id) == nullptr) {
      throw RuleError("unknown_plan", "plan_id", "this job has no such plan");
    }
    Pass made{.id = wanted.id, .job_id = job_id, .part_id = part.id, .plan_id = wanted.plan_id};
    made.number = 1 + std::count_if(present.passes.begin(), present.passes.end(),
                                    [&](const Pass& pass) { return pass.part_id == part.id; });
    made.outboard_marks = wanted.outboard_marks;
    made.inboard_marks = wanted.inboard_marks;
    made.rpm = wanted.rpm;
    made.feed_mm_per_rev = wanted.feed_mm_per_rev;
    made.outboard_corner_id = wanted.outboard_corner_id;
    made.inboard_corner_id = wanted.inboard_corner_id;
    made.outcome = wanted.outcome;
    made.began_at = wanted.began_at;
    made.ended_at = wanted.ended_at;
    made.note = wanted.note;
    made.by_person_id = by;
    made.at = surroundings_.now();
    const double cut_m = made.outcome == PassOutcome::finished ? cut_length_m(part, made.feed_mm_per_rev) : 0;
    wear_corner(made.outboard_corner_id, made.outboard_marks > 0 ? cut_m : 0, by);
    wear_corner(made.inboard_corner_id, made.inboard_marks > 0 ? cut_m : 0, by);
    store_.put(made);
    record("pass.recorded", job_id, made.id, json_text(made), by);
    present.passes.push_back(made);
    return made;
  });
}

double cut_length_m(const Part& part, double feed_mm_per_rev) {
  if (is_drum(part.kind)) {
    const Limits& limits = part.limits;
    const auto& size = limits.machine_to ? limits.machine_to : limits.discard ? limits.discard : limits.nominal;
    if (!size || !part.band_width) return 0;
    return drum::bore_cut_length_m(size->value.value.mm(), part.band_width->value.mm(), feed_mm_per_rev);
  }
  if (!part.outer_diameter || !part.seat.ring_inner || feed_mm_per_rev <= 0) return 0;
  const double outer_mm = part.outer_diameter->value.mm() / 2;
  const double inner_mm = part.seat.ring_inner->value.mm() / 2;
  if (inner_mm >= outer_mm) return 0;
  return std::numbers::pi * (outer_mm * outer_mm - inner_mm * inner_mm) / feed_mm_per_rev / 1000;
}

BenchStep Shop::record_step(const Uuid& job_id, const NewBenchStep& wanted, const Uuid& by) {
  check(wanted);
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const BenchStep* stored = find(present.bench_steps, wanted.id)) {
      if (stored->part_id == wanted.part_id && stored->step == wanted.step && stored->event == wanted.event) {
        return *stored;
      }
      id_taken("step");
    }
    part_of(present, wanted.part_id);
    BenchStep made{.id = wanted.id, .job_id = job_id, .part_id = wanted.part_id, .phase = wanted.phase};
    made.step = wanted.step;
    made.pass = wanted.pass;
    made.event = wanted.event;
    made.detail = wanted.detail;
    made.by_person_id = by;
    made.received_at = surroundings_.now();
    made.taken_at = wanted.taken_at.value_or(made.received_at);
    store_.put(made);
    record("step." + std::string(word_of(made.event)), job_id, made.id, json_text(made), by);
    present.bench_steps.push_back(made);
    return made;
  });
}

}  // namespace brakewright::shop
