#include "shop/demo/turning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "shop/find.hpp"
#include "shop/plans.hpp"
#include "shop/progress.hpp"

namespace brakewright::shop::demo {
namespace {

constexpr int kTracePoints = 8;
constexpr double kCornerLife_m = 9000;
constexpr std::array kMountSteps{"faces_clean", "burrs_off", "pieces_wiped", "nut_tight"};

double wobble_um(const Turned& turned, double angle_deg) {
  return turned.mount_um / 2 * std::cos((angle_deg - turned.mount_phase_deg) * std::numbers::pi / 180);
}

/// First harmonic of a trace round the turn as a vector, micrometres.
std::pair<double, double> high_spot(const std::vector<double>& trace_um) {
  double x = 0;
  double y = 0;
  const auto count = static_cast<double>(trace_um.size());
  for (std::size_t k = 0; k < trace_um.size(); ++k) {
    const double angle = 2 * std::numbers::pi * static_cast<double>(k) / count;
    x += 2 / count * trace_um[k] * std::cos(angle);
    y += 2 / count * trace_um[k] * std::sin(angle);
  }
  return {x, y};
}

/// The mark that a tool leaves which goes in a little past first touch; angles as read off a paper scale, to 5 degrees.
ProofMark mark_on(double x_um, double y_um) {
  const double amplitude_um = std::max(std::hypot(x_um, y_um), 4.0);
  const double infeed_um = std::max(5.0, 5 * std::round(amplitude_um * 0.6 / 5));
  const double arc_deg = 360 / std::numbers::pi * std::acos(std::max(1 - infeed_um / amplitude_um, -1.0));
  double centre_deg = 5 * std::round(std::atan2(y_um, x_um) * 36 / std::numbers::pi);
  if (centre_deg < 0) centre_deg += 360;
  return {.centre_deg = std::fmod(centre_deg, 360), .arc_deg = 5 * std::round(arc_deg / 5), .infeed_um = infeed_um};
}

}  // namespace

Turner::Turner(Shop& shop, Clock& clock, Random& random, const School& school, std::size_t lathe, const Uuid& job_id,
               const Uuid& worker)
    : shop_(shop),
      clock_(clock),
      random_(random),
      lathe_(school.lathes.at(lathe)),
      truth_(school.true_dials.at(lathe)),
      job_id_(job_id),
      worker_(worker) {}

void Turner::turn(const Uuid& part_id, Rotor& rotor, const PlannedPass& least, TurnedUntil until,
                  const TurnedMishap& mishap) {
  const JobFile file = shop_.job_file(job_id_);
  part_ = *find(file.parts, part_id);
  rotor_ = &rotor;
  mishap_ = mishap;
  plan_id_.reset();
  turned_ = {.outboard_um_per_mark = truth_.outboard_um_per_mark,
             .inboard_um_per_mark = truth_.inboard_um_per_mark,
             .dial_sd_um = lathe_.dial_sd_um,
             .mount_um = lathe_.mount_runout_um * (0.3 + 0.8 * random_.uniform()),
             .mount_phase_deg = 360 * random_.uniform()};
  mount();
  prove();
  if (until == TurnedUntil::proven) return;
  passes_ = settle(least);
  for (const char* step : {"edges", "band_on", "guards"}) tick(BenchPhase::cut, step, 0, StepEvent::done, "", 30);
  const std::size_t stop = until == TurnedUntil::between_passes ? passes_.size() - 1 : passes_.size();
  for (std::size_t k = 0; k < stop; ++k) cut_pass(k, passes_.size());
  if (until == TurnedUntil::between_passes) {
    prepare_pass(static_cast<std::int64_t>(passes_.size()), passes_.size() == 1);
    return;
  }
  Cut cut{.id = shop_.new_id(), .job_id = job_id_, .part_id = part_id};
  for (const PlannedPass& pass : passes_) {
    cut.outboard_marks += pass.outboard_marks;
    cut.inboard_marks += pass.inboard_marks;
  }
  clock_.pass(40);
  shop_.record_cut(cut, worker_);
  turned_.outboard_marks = cut.outboard_marks - mishap_.outboard_marks_short;
  turned_.inboard_marks = cut.inboard_marks;
  rotor = cut_rotor(rotor, turned_, random_);
  take_down();
  if (until != TurnedUntil::cut) finish(until == TurnedUntil::finished);
}

void Turner::mount() {
  const StackAdvice advice = shop_.stacks(job_id_, part_.id, 1);
  NewMount wanted{.id = shop_.new_id(), .part_id = part_.id, .lathe_id = lathe_.id};
  for (const std::string& id : advice.answer.stacks.at(0).pieces) wanted.piece_ids.push_back(parse_uuid(id));
  clock_.pass(240 + 120 * random_.uniform());
  shop_.record_mount(job_id_, wanted, worker_);
  tick(BenchPhase::mount, part_.construction == Construction::hubless ? "bore_clean" : "races_clean");
  for (const char* step : kMountSteps) tick(BenchPhase::mount, step);
}

std::vector<double> Turner::trace() const {
  std::vector<double> trace_um;
  for (int k = 0; k < kTracePoints; ++k) {
    const double angle_deg = 360.0 * k / kTracePoints;
    trace_um.push_back(rotor_->face_um_at(angle_deg) + wobble_um(turned_, angle_deg));
  }
  return trace_um;
}

void Turner::prove() {
  clock_.pass(150 + 60 * random_.uniform());
  NewMountProof proof{.id = shop_.new_id(), .part_id = part_.id, .goes_on = true};
  std::vector<double> trace_um = trace();
  const auto way = random_.below(3);
  if (way == 0) {
    proof.kind = ProofKind::scratch;
    const auto [x, y] = high_spot(trace_um);
    const double turn = turned_.mount_phase_deg * std::numbers::pi / 180;
    const double wobble_x = turned_.mount_um / 2 * std::cos(turn);
    const double wobble_y = turned_.mount_um / 2 * std::sin(turn);
    // With the part turned half a turn, the mount's own wobble lies the other way in the part's frame.
    proof.marks = {mark_on(x, y), mark_on(x - 2 * wobble_x, y - 2 * wobble_y)};
  } else {
    const double zero = trace_um.front();
    for (double& value : trace_um) value = 5 * std::round((value - zero) / 5);
    const auto [low, high] = std::minmax_element(trace_um.begin(), trace_um.end());
    if (way == 1) {
      proof.trace_um = trace_um;
    } else {
      proof.runout =
          parse_length(format_number({std::llround((*high - *low) * 1000)}, Unit::mm, 10'000), Unit::mm).typed;
    }
  }
  proof.reason = "The high spot goes with the rotor when it is turned half a turn: the runout is its own.";
  shop_.record_proof(job_id_, proof, worker_);
}

std::vector<PlannedPass> Turner::settle(const PlannedPass& least) {
  clock_.pass(60);
  const PlanAdvice advice = shop_.plan(job_id_, part_.id, std::nullopt);
  if (advice.passes.empty() || !advice.missing.empty() || advice.refusal) {
    PlannedPass one = least;
    one.rpm = lathe_.speeds_rpm.front();
    one.feed_mm_per_rev = lathe_.feeds_mm_per_rev.front();
    return {one};
  }
  const CutPlan settled = shop_.settle_plan(
      job_id_, {.id = shop_.new_id(), .part_id = part_.id, .lathe_id = lathe_.id, .passes = settings_of(advice.passes)},
      worker_);
  plan_id_ = settled.id;
  return settings_of(settled.passes);
}

void Turner::tick(BenchPhase phase, const std::string& step, std::int64_t pass, StepEvent event,
                  const std::string& detail, double seconds) {
  clock_.pass(seconds * (0.7 + 0.6 * random_.uniform()));
  shop_.record_step(job_id_,
                    {.id = shop_.new_id(),
                     .part_id = part_.id,
                     .phase = phase,
                     .step = step,
                     .pass = pass,
                     .event = event,
                     .detail = detail,
                     .taken_at = clock_.now},
                    worker_);
}

void Turner::prepare_pass(std::int64_t number, bool first) {
  const auto step = [&](const char* word, double seconds) {
    tick(BenchPhase::cut, word, number, StepEvent::done, "", seconds);
  };
  step("machine_on", 10);
  if (first) {
    step("heads_open", 8);
    step("run_in", 20);
    if (!mishap_.trouble.empty()) {
      tick(BenchPhase::cut, "touch_outboard", number, StepEvent::trouble, mishap_.trouble, 6);
      tick(BenchPhase::cut, "touch_outboard", number, StepEvent::paused, "", 10);
      tick(BenchPhase::cut, "touch_outboard", number, StepEvent::resumed, "", 90);
    }
    for (const char* face : {"outboard", "inboard"}) {
      step((std::string("touch_") + face).c_str(), 25);
      const std::string dial = std::to_string(random_.below(40));
      tick(BenchPhase::cut, std::string("dial_") + face, number, StepEvent::done, dial, 10);
    }
  }
  step("inner_edge", 20);
  step("marks", 15);
  step("lock", 6);
}

void Turner::cut_pass(std::size_t index, std::size_t count) {
  const auto number = static_cast<std::int64_t>(index) + 1;
  prepare_pass(number, index == 0);
  tick(BenchPhase::cut, "feed_on", number, StepEvent::done, "", 4);
  run_pass(passes_[index], number);
  tick(BenchPhase::cut, "feed_off", number, StepEvent::done, "", 5);
  tick(BenchPhase::cut, "machine_off", number, StepEvent::done, "", 5);
  if (index + 1 < count) tick(BenchPhase::cut, "measure", number, StepEvent::done, "", 90);
}

void Turner::run_pass(const PlannedPass& pass, std::int64_t number) {
  tick(BenchPhase::cut, "pass", number, StepEvent::begun, "", 2);
  const UtcTime began = clock_.now;
  const double ring_mm =
      part_.outer_diameter ? (part_.outer_diameter->value.mm() - part_.seat.ring_inner->value.mm()) / 2 : 50;
  const double travel_mm = ring_mm + lathe_.approach.mm();
  clock_.pass(60 * travel_mm / (pass.feed_mm_per_rev * pass.rpm) * (1 + 0.03 * random_.uniform()));
  const UtcTime ended = clock_.now;
  tick(BenchPhase::cut, "pass", number, StepEvent::done, "", 0);
  NewPass made{.id = shop_.new_id(), .part_id = part_.id, .plan_id = plan_id_};
  made.outboard_marks = pass.outboard_marks;
  made.inboard_marks = pass.inboard_marks;
  made.rpm = pass.rpm;
  made.feed_mm_per_rev = pass.feed_mm_per_rev;
  made.outboard_corner_id = corner_of("tip 1");
  made.inboard_corner_id = corner_of("tip 2");
  made.began_at = began;
  made.ended_at = ended;
  shop_.record_pass(job_id_, made, worker_);
}

/// The corner that is in use on a tip; a worn one is turned on to the next.
Uuid Turner::corner_of(const std::string& insert_name) {
  const auto inserts = shop_.inserts();
  const auto insert = std::find_if(inserts.begin(), inserts.end(),
                                   [&](const Insert& one) { return one.name.starts_with(insert_name); });
  Uuid last;
  for (Corner corner : shop_.corners()) {
    if (corner.insert_id != insert->id || corner.condition != EdgeCondition::sharp) continue;
    last = corner.id;
    if (corner.used_m < kCornerLife_m || corner.number == insert->corners) break;
    corner.condition = EdgeCondition::worn;
    shop_.put_corner(corner, worker_);
  }
  return last;
}

void Turner::take_down() {
  const JobFile file = shop_.job_file(job_id_);
  clock_.pass(120);
  for (const Uuid& piece_id : file.mounts.back().piece_ids) {
    shop_.book({.id = shop_.new_id(), .piece_id = piece_id, .kind = BookingKind::returned, .job_id = job_id_}, worker_);
  }
}

void Turner::finish(bool whole) {
  for (const char* face : {"sand_outboard", "sand_inboard"}) {
    tick(BenchPhase::finish, face, 0, StepEvent::begun, "", 20);
    tick(BenchPhase::finish, face, 0, StepEvent::done, "150 grit", 60);
  }
  if (!whole) return;
  tick(BenchPhase::finish, "washed", 0, StepEvent::done, "", 180);
  tick(BenchPhase::finish, "cloth_white", 0, StepEvent::done, "", 30);
  tick(BenchPhase::finish, "cool", 0, StepEvent::done, "", 600);
}

}  // namespace brakewright::shop::demo
