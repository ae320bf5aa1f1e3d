#include "report/content/assessed.hpp"

#include <algorithm>

#include "shop/assess.hpp"

namespace brakewright::report {

namespace {

std::optional<double> range_um(const std::optional<CircleFit>& fit) {
  return fit ? std::optional<double>(fit->range_um) : std::nullopt;
}

AssessedStage stage_of(const shop::JobFile& file, const shop::Part& part, shop::Stage stage,
                       const shop::MapAssessment* map) {
  AssessedStage assessed{.spots = gather_spots(file, part, stage)};
  if (map == nullptr) return assessed;
  assessed.thickness = map->thickness;
  assessed.drum = map->diameter;
  assessed.runout_outboard_um = range_um(map->runout_outboard);
  assessed.runout_inboard_um = range_um(map->runout_inboard);
  return assessed;
}

}  // namespace

std::vector<AssessedRotor> assessed_rotors(const RecordInput& input) {
  std::vector<AssessedRotor> rotors;
  const shop::Assessment& assessment = input.assessment;
  for (const shop::Part& part : input.file.parts) {
    AssessedRotor rotor{.part = &part};
    const auto known = std::find_if(assessment.parts.begin(), assessment.parts.end(),
                                    [&](const shop::PartAssessment& one) { return one.part_id == part.id; });
    const shop::PartAssessment* found = known == assessment.parts.end() ? nullptr : &*known;
    rotor.before = stage_of(input.file, part, shop::Stage::before, found == nullptr ? nullptr : &found->before);
    rotor.after = stage_of(input.file, part, shop::Stage::after, found == nullptr ? nullptr : &found->after);
    if (found != nullptr) {
      rotor.check = found->check;
      rotor.drum_check = found->drum_check;
      const auto place = static_cast<std::size_t>(known - assessment.parts.begin());
      if (assessment.verdict && place < assessment.verdict->parts.size()) {
        rotor.verdict = assessment.verdict->parts[place];
      }
      if (assessment.drums && place < assessment.drums->parts.size()) {
        rotor.drum_verdict = assessment.drums->parts[place];
      }
    }
    for (const shop::Cut& cut : input.file.cuts) {
      if (cut.part_id == part.id) rotor.cuts.push_back(cut);
    }
    rotors.push_back(std::move(rotor));
  }
  std::stable_sort(rotors.begin(), rotors.end(),
                   [](const AssessedRotor& a, const AssessedRotor& b) { return a.part->side < b.part->side; });
  return rotors;
}

AssessedJob assessed_job(const RecordInput& input) {
  AssessedJob job{input.assessment.verdict, input.assessment.missing};
  if (const auto& drums = input.assessment.drums) {
    job.verdict = Verdict{.action = drums->action,
                          .p = drums->p,
                          .reasons = drums->reasons,
                          .next_measurement = drums->next_measurement,
                          .parts = {}};
  }
  return job;
}

}  // namespace brakewright::report
