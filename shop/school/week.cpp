#include "shop/school/week.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "shop/json.hpp"
#include "shop/school/week_corners.hpp"
#include "shop/school/week_help.hpp"
#include "shop/school/week_waiting.hpp"
#include "shop/states.hpp"

namespace brakewright::shop {
namespace {

/// Of a step at the bench: by its phase.
WeekWork work_of_step(const Change& change) {
  if (change.detail_json.empty()) return WeekWork::cutting;
  switch (from_json<BenchStep>(parse_json(change.detail_json)).phase) {
    case BenchPhase::mount:
      return WeekWork::mounting;
    case BenchPhase::finish:
      return WeekWork::finishing;
    case BenchPhase::refit:
      return WeekWork::refitting;
    case BenchPhase::cut:
      break;
  }
  return WeekWork::cutting;
}

std::optional<WeekWork> work_of(const Change& change) {
  static const std::map<std::string, WeekWork, std::less<>> kWorks{
      {"job", WeekWork::arrival},       {"part", WeekWork::arrival},         {"finding", WeekWork::arrival},
      {"reading", WeekWork::measuring}, {"zero_check", WeekWork::measuring}, {"decision", WeekWork::deciding},
      {"mount", WeekWork::mounting},    {"pass", WeekWork::cutting},         {"cut", WeekWork::cutting},
      {"refit", WeekWork::refitting},   {"amendment", WeekWork::closing}};
  if (change.kind == "job.sealed") return WeekWork::closing;
  if (change.kind == "plan.changed") return WeekWork::measuring;
  if (change.kind == "plan.settled") return WeekWork::cutting;
  const std::string word = change.kind.substr(0, change.kind.find('.'));
  if (word == "step") return work_of_step(change);
  const auto found = kWorks.find(word);
  if (found == kWorks.end()) return std::nullopt;
  return found->second;
}

JobNumbers list_of(const std::set<std::int64_t>& numbers) { return {numbers.begin(), numbers.end()}; }

class Week {
 public:
  Week(Shop& shop, School& school, UtcTime from, UtcTime to) : shop_(shop), school_(school), lathes_(shop.lathes()) {
    figures_.from = from;
    figures_.to = to;
  }

  WeekFigures all() {
    read_journal();
    figures_.jobs = static_cast<std::int64_t>(job_ids_.size());
    for (const Uuid& id : job_ids_) read_job(shop_.job_file(id));
    for (const ZeroCheck& check : shop_.zero_checks(std::nullopt)) {
      if (!within(check.at)) continue;
      auto& largest = instruments_[check.instrument_id].told.zero_error_um;
      largest = std::max(largest.value_or(0), std::abs(check.error.value.um()));
    }
    tell_time();
    tell_waiting();
    tell_instruments();
    tell_pieces();
    tell_people();
    figures_.inserts = inserts_of(corners_, shop_.inserts(), shop_.corners());
    return std::move(figures_);
  }

 private:
  using Numbers = std::set<std::int64_t>;

  template <class T>
  struct Counted {
    T told = {};
    Numbers numbers = {};
  };

  struct OfPerson {
    WeekPerson told = {};
    std::int64_t in_doubt = 0;
    Numbers numbers = {}, in_doubt_numbers = {}, decided_numbers = {}, stopped_numbers = {};
  };

  bool within(UtcTime at) const { return at >= figures_.from && at < figures_.to; }

  void read_journal() {
    std::map<Uuid, UtcTime> last;
    for (const Change& change : shop_.own_changes(figures_.from, figures_.to)) {
      moments_.push_back(change.at);
      if (change.job_id) read_change(change, last);
    }
  }

  void read_change(const Change& change, std::map<Uuid, UtcTime>& last) {
    const auto work = work_of(change);
    if (!work) return;
    job_ids_.insert(*change.job_id);
    work_jobs_[*work].insert(*change.job_id);
    const auto before = last.find(*change.job_id);
    if (before != last.end()) {
      const auto gap = change.at - before->second;
      if (gap >= gap.zero() && gap < kGoneAway) minutes_[*work] += minutes_of(gap);
    }
    last[*change.job_id] = change.at;
  }

  void read_job(const JobFile& file) {
    numbers_[file.job.id] = file.job.number;
    std::set<Uuid> workers;
    read_readings(file, workers);
    for (const Decision& decision : file.decisions) {
      if (!within(decision.at)) continue;
      workers.insert(decision.by_person_id);
      if (decision.action == decision.computed_action) continue;
      OfPerson& person = people_[decision.by_person_id];
      ++person.told.decided_otherwise;
      person.decided_numbers.insert(file.job.number);
    }
    for (const Pass& pass : file.passes) {
      if (!within(pass.at)) continue;
      workers.insert(pass.by_person_id);
      count_pass(corners_, file, pass, lathes_);
      if (pass.outcome != PassOutcome::stopped) continue;
      OfPerson& person = people_[pass.by_person_id];
      ++person.told.stopped_passes;
      person.stopped_numbers.insert(file.job.number);
    }
    for (const Uuid& worker : workers) people_[worker].numbers.insert(file.job.number);
    read_proofs(file);
    count_parts(file);
  }

  void read_readings(const JobFile& file, std::set<Uuid>& workers) {
    const auto states = states_of(file.readings);
    for (std::size_t k = 0; k < file.readings.size(); ++k) {
      const Reading& reading = file.readings[k];
      if (!within(reading.received_at)) continue;
      const bool back = states[k] != ReadingState::current, questioned = !reading.confirmed_doubts.empty();
      workers.insert(reading.by_person_id);
      OfPerson& person = people_[reading.by_person_id];
      ++person.told.readings;
      person.told.taken_back += back ? 1 : 0;
      person.told.questioned += questioned ? 1 : 0;
      if (back || questioned) {
        ++person.in_doubt;
        person.in_doubt_numbers.insert(file.job.number);
      }
      if (!reading.instrument_id) continue;
      auto& [instrument, numbers] = instruments_[*reading.instrument_id];
      ++instrument.readings;
      instrument.taken_back += back ? 1 : 0;
      instrument.questioned += questioned ? 1 : 0;
      instrument.in_doubt.count += back || questioned ? 1 : 0;
      numbers.insert(file.job.number);
    }
  }

  void read_proofs(const JobFile& file) {
    for (const MountProof& proof : file.mount_proofs) {
      if (!within(proof.at)) continue;
      const Mount* mount = nullptr;
      for (const Mount& one : file.mounts) {
        if (one.part_id == proof.part_id && one.at <= proof.at) mount = &one;
      }
      if (mount == nullptr) continue;
      const bool over = proof.runout_um > proof.allowed_um;
      ++figures_.proofs;
      figures_.proofs_over_rule += over ? 1 : 0;
      for (const Uuid& piece_id : std::set<Uuid>(mount->piece_ids.begin(), mount->piece_ids.end())) {
        auto& [piece, numbers] = pieces_[piece_id];
        piece.mean_runout_um = (piece.mean_runout_um * static_cast<double>(piece.proofs) + proof.runout_um) /
                               static_cast<double>(piece.proofs + 1);
        ++piece.proofs;
        piece.over_rule += over ? 1 : 0;
        numbers.insert(file.job.number);
      }
    }
  }

  void count_parts(const JobFile& file) {
    if (!file.job.sealed_at || !within(*file.job.sealed_at) || file.job.complaint == Complaint::practice) return;
    ++figures_.sealed_jobs;
    if (file.decisions.empty()) return;
    const Action action = file.decisions.back().action;
    const auto parts = static_cast<std::int64_t>(file.parts.size());
    if (action == Action::replace) {
      figures_.parts_replaced += parts;
      replaced_.insert(file.job.number);
    }
    if (action == Action::leave) {
      figures_.parts_left += parts;
      left_.insert(file.job.number);
    }
    if (action != Action::cut) return;
    for (const Part& part : file.parts) {
      if (std::none_of(file.cuts.begin(), file.cuts.end(), [&](const Cut& cut) { return cut.part_id == part.id; })) {
        continue;
      }
      ++figures_.parts_cut;
      cut_.insert(file.job.number);
    }
  }

  void tell_time() {
    for (const auto& [work, ids] : work_jobs_) {
      Numbers numbers;
      for (const Uuid& id : ids) numbers.insert(numbers_[id]);
      figures_.time.push_back({work, minutes_[work], static_cast<std::int64_t>(ids.size()), list_of(numbers)});
    }
    figures_.cut_job_numbers = list_of(cut_);
    figures_.left_job_numbers = list_of(left_);
    figures_.replaced_job_numbers = list_of(replaced_);
  }

  void tell_waiting() {
    const auto spells = spells_of(std::move(moments_));
    std::vector<Waiter> waiters;
    for (const QueueEntry& entry : school_.queue_entries()) {
      if (entry.joined_at >= figures_.to || (entry.left_at && *entry.left_at < figures_.from)) continue;
      const JobFile file = shop_.job_file(entry.job_id);
      const UtcTime until = waited_until(entry, file).value_or(figures_.to);
      if (until <= figures_.from) continue;
      waiters.push_back({entry.lathe_id, file.job.number, entry.joined_at, until});
    }
    figures_.waiting = waiting_of(waiters, spells);
  }

  void tell_instruments() {
    std::int64_t readings = 0, in_doubt = 0;
    for (const auto& [id, one] : instruments_) {
      readings += one.told.readings;
      in_doubt += one.told.in_doubt.count;
    }
    for (auto& [id, one] : instruments_) {
      WeekInstrument& told = one.told;
      told.instrument_id = id;
      told.in_doubt = share_of(told.in_doubt.count, told.readings);
      told.stands_out = stands_out(told.in_doubt, share_of(in_doubt - told.in_doubt.count, readings - told.readings));
      told.job_numbers = list_of(one.numbers);
      figures_.instruments.push_back(std::move(told));
    }
  }

  void tell_pieces() {
    for (auto& [id, one] : pieces_) {
      WeekPiece& told = one.told;
      told.piece_id = id;
      told.over = share_of(told.over_rule, told.proofs);
      told.stands_out =
          stands_out(told.over, share_of(figures_.proofs_over_rule - told.over_rule, figures_.proofs - told.proofs));
      told.job_numbers = list_of(one.numbers);
      figures_.pieces.push_back(std::move(told));
    }
  }

  void tell_people() {
    const auto permits = school_.permits();
    const auto marks = school_.study_marks();
    const auto competences = school_.competences();
    const auto evidence = school_.evidence();
    const auto points = school_.safety_points();
    const bool asks = figures_.to > school_.now() &&
                      std::any_of(points.begin(), points.end(), [](const SafetyPoint& one) { return one.active; });
    for (const Person& person : shop_.people()) {
      const auto found = people_.find(person.id);
      if (found == people_.end() && !(person.active && person.role == Role::student)) continue;
      const OfPerson of = found == people_.end() ? OfPerson() : found->second;
      WeekPerson told = of.told;
      told.person_id = person.id;
      told.jobs = static_cast<std::int64_t>(of.numbers.size());
      told.job_numbers = list_of(of.numbers);
      if (person.role == Role::student) {
        const HelpJobs jobs{of.in_doubt, list_of(of.in_doubt_numbers), list_of(of.decided_numbers),
                            list_of(of.stopped_numbers)};
        told.help = help_of({told, jobs, permits, marks, competences, evidence, asks, figures_.from, figures_.to});
      }
      figures_.people.push_back(std::move(told));
    }
  }

  Shop& shop_;
  School& school_;
  const std::vector<Lathe> lathes_;
  WeekFigures figures_;
  std::vector<UtcTime> moments_;  ///< of every entry in the span
  std::set<Uuid> job_ids_;
  std::map<Uuid, std::int64_t> numbers_;
  std::map<WeekWork, double> minutes_;
  std::map<WeekWork, std::set<Uuid>> work_jobs_;
  std::map<Uuid, Counted<WeekInstrument>> instruments_;
  std::map<Uuid, Counted<WeekPiece>> pieces_;
  std::map<Uuid, OfPerson> people_;
  CornerUses corners_;
  Numbers cut_, left_, replaced_;
};

}  // namespace

WeekFigures week_of(Shop& shop, School& school, UtcTime from, UtcTime to) {
  if (from >= to || to - from > std::chrono::hours(24 * 400)) {
    throw InputError("out_of_range", "to", "a time after `from`, at most 400 days later");
  }
  return Week(shop, school, from, to).all();
}

double money_saved(const WeekFigures& figures, double part_price, double cut_cost) {
  return static_cast<double>(figures.parts_cut) * (part_price - cut_cost);
}

}  // namespace brakewright::shop
