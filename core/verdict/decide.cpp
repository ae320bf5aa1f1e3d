#include "core/verdict/decide.hpp"

#include <algorithm>

#include "core/verdict/drum_reasons.hpp"
#include "core/verdict/reasons.hpp"

namespace brakewright {
namespace {

/// One question asked of the part as it is.
struct Asked {
  const char* name;
  double p_within;
  Standing standing;
  Reason reason;
};

std::vector<Asked> asked_of(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers) {
  std::vector<Asked> asked;
  if (part.limits.variation && numbers.p_variation_within) {
    const Standing standing = *numbers.thickness.variation_verdict;
    asked.push_back({"variation", *numbers.p_variation_within, standing,
                     reasons::variation(numbers, *part.limits.variation, standing)});
  }
  if (part.limits.runout && numbers.p_runout_within) {
    const Standing standing = standing_of(*numbers.p_runout_within, input.confidence);
    asked.push_back(
        {"runout", *numbers.p_runout_within, standing, reasons::runout(numbers, *part.limits.runout, standing)});
  }
  if (part.limits.scoring && numbers.p_scoring_within) {
    const double p = *numbers.p_scoring_within;
    const Standing standing = standing_of(p, input.confidence);
    asked.push_back({"scoring", p, standing, reasons::scoring(part, *part.limits.scoring, p, standing)});
  }
  if (part.limits.taper && numbers.p_taper_within) {
    const Standing standing = standing_of(*numbers.p_taper_within, input.confidence);
    asked.push_back(
        {"taper", *numbers.p_taper_within, standing, drum_reasons::taper(numbers, *part.limits.taper, standing)});
  }
  return asked;
}

/// Puts the questions' sentences in, those of this standing first.
void tell(const std::vector<Asked>& asked, Standing first, Decision& decision) {
  for (const Asked& question : asked) {
    if (question.standing == first) decision.reasons.push_back(question.reason);
  }
  for (const Asked& question : asked) {
    if (question.standing != first) decision.reasons.push_back(question.reason);
  }
}

bool pulsates(const VerdictInput& input, const std::vector<Asked>& asked) {
  return input.complaint == Complaint::pulsation && std::any_of(asked.begin(), asked.end(), [](const Asked& question) {
           return question.p_within < 0.5 && question.name != std::string("scoring");
         });
}

/// Whether a cut is called for: `outside` yes, `within` no. Absent when nothing was asked.
std::optional<Standing> called_for(const VerdictInput& input, const std::vector<Asked>& asked) {
  if (asked.empty()) return std::nullopt;
  const auto any = [&](Standing standing) {
    return std::any_of(asked.begin(), asked.end(),
                       [&](const Asked& question) { return question.standing == standing; });
  };
  if (any(Standing::outside) || pulsates(input, asked)) return Standing::outside;
  return any(Standing::cannot_tell) ? Standing::cannot_tell : Standing::within;
}

Decision again(std::string question, double p, Decision decision) {
  decision.action = Action::measure_again;
  decision.question = std::move(question);
  decision.p = p;
  return decision;
}

void tell_assumptions(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers,
                      Decision& decision) {
  if (numbers.machine_to_is_house_rule) {
    decision.reasons.push_back(reasons::house_rule(numbers, *input.house_allowance));
  }
  if (numbers.runout_assumed) decision.reasons.push_back(reasons::runout_assumed(part));
}

/// Why the cut is called for, beside the questions themselves.
void tell_the_call(const VerdictInput& input, const PartVerdict& numbers, const std::vector<Asked>& asked,
                   Decision& decision) {
  tell(asked, Standing::outside, decision);
  const auto outside = [&](const char* name) {
    return std::any_of(asked.begin(), asked.end(), [&](const Asked& question) {
      return question.standing == Standing::outside && question.name == std::string(name);
    });
  };
  const bool any = std::any_of(asked.begin(), asked.end(),
                               [](const Asked& question) { return question.standing == Standing::outside; });
  if (!any && pulsates(input, asked)) decision.reasons.push_back(reasons::pulsation(numbers));
  if (outside("runout") && !outside("variation") && !outside("scoring")) {
    decision.reasons.push_back(reasons::runout_whose());
  }
}

/// A cut is called for: may it be made?
Decision decide_cut(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers,
                    const std::vector<Asked>& asked) {
  Decision decision;
  if (!numbers.machine_to) {
    const bool hopeless = numbers.p_final_over_discard && *numbers.p_final_over_discard <= 1 - input.confidence;
    decision.reasons.push_back(hopeless ? reasons::final_under_discard(numbers, *part.limits.discard)
                                        : reasons::machine_to_unknown(numbers));
    tell_the_call(input, numbers, asked, decision);
    tell_assumptions(input, part, numbers, decision);
    if (!hopeless) return again("limit:machine_to", 0.5, std::move(decision));
    decision.action = Action::replace;
    decision.p = 1 - *numbers.p_final_over_discard;
    return decision;
  }
  const double p = *numbers.p_final_over_machine_to;
  const Standing standing = standing_of(p, input.confidence);
  decision.reasons.push_back(reasons::after_cut(numbers, standing));
  tell_the_call(input, numbers, asked, decision);
  const bool between = numbers.thickness.min_mm <= numbers.machine_to->value_mm;
  if (between && part.limits.discard)
    decision.reasons.push_back(reasons::between_limits(numbers, *part.limits.discard));
  tell_assumptions(input, part, numbers, decision);
  if (standing == Standing::cannot_tell) return again("machine_to", p, std::move(decision));
  decision.action = standing == Standing::within ? Action::cut : Action::replace;
  decision.p = standing == Standing::within ? p : 1 - p;
  return decision;
}

/// No cut is called for: may the part stay?
Decision decide_stay(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers,
                     const std::vector<Asked>& asked, double p_as_it_is) {
  Decision decision;
  const bool over_machine_to =
      numbers.thickness.p_min_above_machine_to && *numbers.thickness.p_min_above_machine_to >= input.confidence;
  if (!part.limits.discard && !over_machine_to) {
    decision.reasons.push_back(reasons::discard_unknown());
    tell(asked, Standing::within, decision);
    return again("limit:discard", 0.5, std::move(decision));
  }
  decision.action = Action::leave;
  decision.p = p_as_it_is;
  for (const Asked& question : asked) {
    if (question.name != std::string("variation")) decision.p *= question.p_within;
  }
  decision.reasons.push_back(reasons::no_cut_called_for());
  tell(asked, Standing::within, decision);
  if (part.limits.discard) {
    decision.reasons.push_back(reasons::discard(numbers, *part.limits.discard, Standing::within));
    if (numbers.machine_to && numbers.thickness.min_mm <= numbers.machine_to->value_mm) {
      decision.reasons.push_back(reasons::between_limits(numbers, *part.limits.discard));
    }
  }
  if (input.complaint == Complaint::pulsation) decision.reasons.push_back(reasons::pulsation_elsewhere());
  return decision;
}

}  // namespace

Standing standing_of(double p, double confidence) {
  if (p >= confidence) return Standing::within;
  return p <= 1 - confidence ? Standing::outside : Standing::cannot_tell;
}

Decision decide(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers, double p_as_it_is) {
  Decision decision;
  for (const Finding& finding : part.findings) {
    if (finding.reject) decision.reasons.push_back(reasons::finding(finding));
  }
  if (!decision.reasons.empty()) {
    decision.action = Action::replace;
    decision.p = 1;
    return decision;
  }
  if (part.limits.discard) {
    const double p = *numbers.p_above_discard;
    const Standing standing = standing_of(p, input.confidence);
    if (standing != Standing::within) {
      decision.reasons.push_back(reasons::discard(numbers, *part.limits.discard, standing));
      if (standing == Standing::cannot_tell) return again("discard", p, std::move(decision));
      decision.action = Action::replace;
      decision.p = 1 - p;
      return decision;
    }
  }
  const std::vector<Asked> asked = asked_of(input, part, numbers);
  const auto call = called_for(input, asked);
  if (!call) {
    decision.reasons.push_back(reasons::no_limits(numbers));
    return again("limit:variation", 0.5, std::move(decision));
  }
  if (*call == Standing::outside) return decide_cut(input, part, numbers, asked);
  if (*call == Standing::within) return decide_stay(input, part, numbers, asked, p_as_it_is);
  tell(asked, Standing::cannot_tell, decision);
  const auto open = std::find_if(asked.begin(), asked.end(),
                                 [](const Asked& question) { return question.standing == Standing::cannot_tell; });
  return again(open->name, open->p_within, std::move(decision));
}

}  // namespace brakewright
