#include "core/verdict/verdict.hpp"

#include <algorithm>

#include "core/input_error.hpp"
#include "core/verdict/check.hpp"
#include "core/verdict/decide.hpp"
#include "core/verdict/next_measurement.hpp"
#include "core/verdict/part_study.hpp"
#include "core/verdict/reasons.hpp"

namespace brakewright {
namespace {

double share_of(const std::vector<std::uint8_t>& flags) {
  return static_cast<double>(std::count(flags.begin(), flags.end(), 1)) / static_cast<double>(flags.size());
}

/// One part with all that led to its own decision.
struct Judged {
  PartStudy study;
  Decision decision;
};

Judged judge_part(const VerdictInput& input, std::size_t index) {
  const PartReadings& part = input.parts[index];
  try {
    Judged judged{.study = study_part(input, part, index), .decision = {}};
    judged.decision = decide(input, part, judged.study.verdict, share_of(judged.study.as_it_is_holds));
    PartVerdict& verdict = judged.study.verdict;
    verdict.action = judged.decision.action;
    verdict.p = judged.decision.p;
    for (Reason& reason : judged.decision.reasons) reason.part = part.name;
    verdict.reasons = judged.decision.reasons;
    const std::string& code = verdict.reasons.front().code;
    const bool asked =
        code != "finding_reject" && code != "below_discard" && code != "over_discard" && code != "discard_unclear";
    if (asked && judged.decision.question.rfind("limit:variation", 0) != 0) {
      const bool called = verdict.action == Action::cut || verdict.action == Action::replace ||
                          judged.decision.question == "machine_to" || judged.decision.question == "limit:machine_to";
      const bool stays = verdict.action == Action::leave || judged.decision.question == "limit:discard";
      verdict.cut_called_for = called ? Standing::outside : stays ? Standing::within : Standing::cannot_tell;
    }
    return judged;
  } catch (const InputError& error) {
    throw error.within("parts[" + std::to_string(index) + "]");
  }
}

/// How grave an action is for the axle.
int gravity(Action action) {
  switch (action) {
    case Action::leave:
      return 0;
    case Action::cut:
      return 1;
    case Action::measure_again:
      return 2;
    case Action::replace:
      break;
  }
  return 3;
}

/// Probability behind the axle's word, of two parts that share one micrometer.
double joint(const std::vector<std::uint8_t>& a, const std::vector<std::uint8_t>& b) {
  std::size_t both = 0;
  for (std::size_t i = 0; i < a.size(); ++i) both += static_cast<std::size_t>(a[i] & b[i]);
  return static_cast<double>(both) / static_cast<double>(a.size());
}

void gather_reasons(const std::vector<Judged>& parts, std::size_t first, Verdict& verdict) {
  for (std::size_t n = 0; n < parts.size(); ++n) {
    for (Reason reason : parts[(first + n) % parts.size()].decision.reasons) {
      if (parts.size() > 1 && !reason.part.empty()) reason.text = reason.part + ": " + reason.text;
      verdict.reasons.push_back(std::move(reason));
    }
  }
}

void ask_next(const VerdictInput& input, const std::vector<Judged>& parts, std::size_t index,
              const std::string& question, double p, Verdict& verdict) {
  verdict.action = Action::measure_again;
  verdict.p = p;
  verdict.next_measurement = find_next_measurement(input, index, parts[index].study.verdict, question, p);
}

/// Both are cut, or neither: the partner of a part that is to be cut must bear a cut as well.
void judge_cut_pair(const VerdictInput& input, const std::vector<Judged>& parts, std::size_t cut, Verdict& verdict) {
  const std::size_t other = 1 - cut;
  const PartVerdict& partner = parts[other].study.verdict;
  const std::string& needs = parts[cut].study.verdict.name;
  verdict.action = Action::cut;
  if (!partner.p_final_over_machine_to) {
    verdict.reasons.insert(verdict.reasons.begin(), reasons::machine_to_unknown(partner));
    verdict.reasons.front().part = partner.name;
    ask_next(input, parts, other, "limit:machine_to", 0.5, verdict);
    return;
  }
  const double p = *partner.p_final_over_machine_to;
  const Standing standing = standing_of(p, input.confidence);
  if (partner.action != Action::cut) {
    verdict.reasons.insert(verdict.reasons.begin(), standing == Standing::within
                                                        ? reasons::partner(Action::cut, needs, partner.name)
                                                        : reasons::partner_cannot(partner));
  }
  if (standing == Standing::cannot_tell) {
    ask_next(input, parts, other, "machine_to", p, verdict);
    return;
  }
  if (standing == Standing::outside) {
    verdict.action = Action::replace;
    verdict.p = 1 - p;
    return;
  }
  verdict.p = joint(parts[0].study.final_holds, parts[1].study.final_holds);
}

void judge_pair(const VerdictInput& input, const std::vector<Judged>& parts, std::size_t gravest, Verdict& verdict) {
  const std::size_t other = 1 - gravest;
  const Judged& worst = parts[gravest];
  const Judged& partner = parts[other];
  if (verdict.action == Action::replace && partner.decision.action != Action::replace) {
    verdict.reasons.insert(verdict.reasons.begin() + 1,
                           reasons::partner(Action::replace, worst.study.verdict.name, partner.study.verdict.name));
  }
  if (verdict.action == Action::replace && partner.decision.action == Action::replace) {
    verdict.p = std::max(worst.decision.p, partner.decision.p);
  }
  if (verdict.action == Action::cut) judge_cut_pair(input, parts, gravest, verdict);
  if (verdict.action == Action::leave) {
    const double shares = share_of(worst.study.as_it_is_holds) * share_of(partner.study.as_it_is_holds);
    const double together = joint(worst.study.as_it_is_holds, partner.study.as_it_is_holds);
    verdict.p = shares > 0 ? worst.decision.p * partner.decision.p * together / shares : 0;
  }
}

}  // namespace

const char* name_of(Action action) {
  switch (action) {
    case Action::leave:
      return "leave";
    case Action::cut:
      return "cut";
    case Action::replace:
      return "replace";
    case Action::measure_again:
      break;
  }
  return "measure again";
}

Verdict judge(const VerdictInput& input) {
  check(input);
  std::vector<Judged> parts;
  for (std::size_t i = 0; i < input.parts.size(); ++i) parts.push_back(judge_part(input, i));
  std::size_t gravest = 0;
  if (parts.size() == 2) {
    const int first = gravity(parts[0].decision.action);
    const int second = gravity(parts[1].decision.action);
    const bool less_sure = parts[1].decision.p < parts[0].decision.p;
    if (second > first || (second == first && less_sure)) gravest = 1;
  }
  const Decision& decisive = parts[gravest].decision;
  Verdict verdict;
  verdict.action = decisive.action;
  verdict.p = decisive.p;
  gather_reasons(parts, gravest, verdict);
  if (decisive.action == Action::measure_again) {
    ask_next(input, parts, gravest, decisive.question, decisive.p, verdict);
  } else if (parts.size() == 2) {
    judge_pair(input, parts, gravest, verdict);
  }
  for (Judged& part : parts) verdict.parts.push_back(std::move(part.study.verdict));
  return verdict;
}

}  // namespace brakewright
