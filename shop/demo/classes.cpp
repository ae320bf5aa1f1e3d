#include "shop/demo/classes.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "shop/demo/school.hpp"

namespace brakewright::shop {
namespace {

using demo::Clock;

constexpr std::uint64_t kStream = 77;

/// How an invented student reads.
struct Hand {
  double off_um = 0;
  double sd_um = 1.5;
};

constexpr Hand kHands[] = {{0, 1.2}, {-1, 1.5}, {-9, 1.8}, {1, 1.4}, {0, 6}, {2, 1.6}, {-1, 1.3}, {7, 2}};

class DemoSchool {
 public:
  DemoSchool(Shop& shop, School& school, Clock& clock, Random& random)
      : shop_(shop), school_(school), clock_(clock), random_(random) {
    for (const Person& person : shop.people()) {
      if (person.role == Role::teacher && teacher_ == Uuid{}) teacher_ = person.id;
      if (person.role == Role::student && person.active) students_.push_back(person.id);
    }
    for (const Instrument& one : shop.instruments()) {
      if (one.active && one.kind == InstrumentKind::micrometer) micrometers_.push_back(one.id);
    }
    if (micrometers_.size() > 2) micrometers_.resize(2);
  }

  void live() {
    school_.put_starter_lists(teacher_);
    found_class();
    for (const auto& [name, size] :
         {std::pair{"Reference disc A", "20.118"}, std::pair{"Reference disc B", "20.964"},
          std::pair{"Reference disc C", "21.527"}, std::pair{"Reference disc D", "22.043"}}) {
      add_part(name, size);
    }
    const Study first = add_study("First week: four discs", {micrometers_.front()});
    for (std::size_t k = 0; k < students_.size(); ++k) read(first, k, 1);
    close(first);
    const Study second = add_study("Both micrometers", micrometers_);
    for (std::size_t k = 0; k < students_.size(); ++k)
      read(second, k, k % 4 == 3 ? 0 : 0.25 * static_cast<double>(k % 4 + 1));
    answer_safety();
    sign_and_permit();
    note_evidence();
    stand_in_queue();
  }

 private:
  void found_class() {
    const auto today = std::chrono::floor<std::chrono::days>(clock_.now);
    const SchoolClass made = school_.put_class({.id = shop_.new_id(),
                                                .name = "Brakes, second year",
                                                .term = "This term",
                                                .starts_on = today - std::chrono::days(60),
                                                .ends_on = today + std::chrono::days(45)},
                                               teacher_);
    for (const Uuid& student : students_) {
      school_.join_class({.id = shop_.new_id(), .class_id = made.id, .person_id = student}, teacher_);
    }
  }

  void add_part(const std::string& name, const std::string& size) {
    clock_.pass(40);
    parts_.push_back(school_.put_reference_part({.id = shop_.new_id(),
                                                 .name = name,
                                                 .place_words = "on the painted dot, 15 mm in from the edge",
                                                 .reference = parse_length(size, Unit::mm).typed,
                                                 .expanded_uncertainty = {1'200},
                                                 .source = "Invented: measured against gauge blocks, k = 2"},
                                                teacher_));
  }

  Study add_study(const std::string& name, const std::vector<Uuid>& instruments) {
    clock_.pass(60);
    Study study{.id = shop_.new_id(), .name = name, .person_ids = students_, .instrument_ids = instruments};
    for (const ReferencePart& part : parts_) study.reference_part_ids.push_back(part.id);
    study.seed = static_cast<std::int64_t>(random_.below(1'000'000)) + 1;
    study.tolerance = parse_length("0.4", Unit::mm).typed;
    return school_.put_study(study, teacher_);
  }

  void read(const Study& study, std::size_t number, double share) {
    const Uuid& student = students_[number];
    const Hand& hand = kHands[number % std::size(kHands)];
    const auto places = school_.open_places(study.id, student);
    const auto count = static_cast<std::size_t>(std::lround(share * static_cast<double>(places.size())));
    for (std::size_t k = 0; k < count; ++k) {
      clock_.pass(2);  // twenty read at once
      const auto part = std::find_if(parts_.begin(), parts_.end(),
                                     [&](const ReferencePart& one) { return one.id == places[k].reference_part_id; });
      const double um = part->reference.value.um() + hand.off_um + hand.sd_um * random_.normal();
      school_.add_study_reading(study.id,
                                {.id = shop_.new_id(),
                                 .person_id = student,
                                 .reference_part_id = places[k].reference_part_id,
                                 .instrument_id = places[k].instrument_id,
                                 .repeat = places[k].repeat,
                                 .text = format_number({std::llround(um) * 1'000}, Unit::mm, 1'000)},
                                student);
    }
  }

  void close(Study study) {
    clock_.pass(300);
    study.closed = true;
    school_.put_study(study, teacher_);
  }

  void answer_safety() {
    for (std::size_t k = 0; k < students_.size(); ++k) {
      const auto points = school_.safety_points();
      const std::size_t answered = k % 5 == 4 ? points.size() / 2 : points.size();
      for (std::size_t place = 0; place < answered; ++place) {
        clock_.pass(3);
        const bool slips = k % 6 == 5 && place == 2;
        school_.answer_safety_point(
            {.id = shop_.new_id(),
             .person_id = students_[k],
             .safety_point_id = points[place].id,
             .choice = slips ? (points[place].right_choice + 1) % 3 : points[place].right_choice},
            students_[k]);
      }
    }
  }

  void sign_and_permit() {
    for (std::size_t k = 0; k < students_.size(); ++k) {
      for (std::size_t cut = 0; cut < k % 3 + (k < 4 ? 1U : 0U); ++cut) {
        clock_.pass(5);
        school_.sign_cut({.id = shop_.new_id(), .person_id = students_[k], .note = "stood beside it"}, teacher_);
      }
      const PermitState state = school_.permit_of(students_[k]);
      if (!state.is_ready && k != 2) continue;
      const std::string reason = state.is_ready ? "" : "cut for two years in a trade shop";
      const PermitState given = school_.give_permit(students_[k], {.id = shop_.new_id(), .reason = reason}, teacher_);
      if (k != 1) continue;
      clock_.pass(60);
      school_.withdraw_permit(students_[k], given.permit->id, "left the guard open; to be talked over", teacher_);
    }
  }

  void note_evidence() {
    const auto competences = school_.competences();
    const auto jobs = shop_.jobs({.state = JobState::sealed, .words = "", .limit = 20}).lines;
    for (std::size_t k = 0; k < students_.size(); ++k) {
      for (std::size_t place = 0; place + k % 4 < competences.size() - 4; ++place) {
        clock_.pass(2);
        const std::size_t level = (place + k) % 4;
        const bool leads = level == 3;
        school_.add_evidence({.id = shop_.new_id(),
                              .competence_id = competences[place].id,
                              .person_id = students_[k],
                              .level = static_cast<EvidenceLevel>(level),
                              .job_id = jobs.empty() ? std::optional<Uuid>() : jobs[(k + place) % jobs.size()].job.id},
                             leads ? teacher_ : students_[k]);
      }
    }
  }

  void stand_in_queue() {
    for (const Lathe& lathe : shop_.lathes()) {
      for (const JobLine& line : shop_.jobs({.state = JobState::open, .words = "", .limit = 50}).lines) {
        if (line.job.lathe_id != lathe.id || !needs_lathe(shop_.job_file(line.job.id), line.waits_for)) continue;
        clock_.pass(30);
        school_.join_queue(lathe.id,
                           {.id = shop_.new_id(),
                            .job_id = line.job.id,
                            .person_id = line.job.worker_person_id.value_or(students_.front())},
                           teacher_);
      }
    }
  }

  Shop& shop_;
  School& school_;
  Clock& clock_;
  Random& random_;
  Uuid teacher_ = {};
  std::vector<Uuid> students_;
  std::vector<Uuid> micrometers_;
  std::vector<ReferencePart> parts_;
};

}  // namespace

void make_demo_school(Store& store, SchoolStore& school_store, std::uint64_t seed, UtcTime now) {
  Clock clock{now - std::chrono::hours(3)};
  Random random(seed, kStream);
  auto dice = std::make_shared<Random>(seed, kStream + 1);
  Shop shop(store, {.now = [&clock] { return clock.now; },
                    .random =
                        [dice](std::span<std::uint8_t> bytes) {
                          for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice->below(256));
                        }});
  School school(shop, school_store, [&clock] { return clock.now; });
  if (!school.classes().empty()) throw RuleError("not_empty", "", "demo data goes into an empty school only");
  shop.batch([&] { DemoSchool(shop, school, clock, random).live(); });
}

}  // namespace brakewright::shop
