#include "core/gauge_study/findings.hpp"

namespace brakewright::gauge_study {
namespace {

struct GroupCodes {
  FindingCode spread, offset, bias;
};

void put_dominant(std::vector<Finding>& findings, const Study& study) {
  const Components& found = (study.is_pooled ? *study.pooled : *study.full).components;
  if (!found.reproducibility || found.grr <= 0) return;
  const double share = found.repeatability / found.grr;
  const auto larger = study.intervals.p_repeatability_larger;
  if (share >= 0.5) {
    findings.push_back({FindingCode::repeatability_dominates, {}, share, 1 - larger.value_or(1)});
  } else {
    findings.push_back({FindingCode::reproducibility_dominates, {}, 1 - share, larger});
  }
}

void put_groups(std::vector<Finding>& findings, const std::vector<Group>& groups, const GroupCodes& codes) {
  const auto put = [&](FindingCode code, const Group& group, const std::optional<double>& value,
                       const std::optional<double>& p) {
    if (p && *p <= kLevel) findings.push_back({code, group.name, value, p});
  };
  for (const Group& group : groups) {
    put(codes.spread, group, group.spread_ratio, group.spread_p);
    put(codes.offset, group, group.offset, group.offset_p);
    put(codes.bias, group, group.bias, group.bias_p);
  }
}

}  // namespace

std::string_view name_of(FindingCode code) {
  switch (code) {
    case FindingCode::repeatability_dominates:
      return "repeatability_dominates";
    case FindingCode::reproducibility_dominates:
      return "reproducibility_dominates";
    case FindingCode::interaction_present:
      return "interaction_present";
    case FindingCode::parts_not_told_apart:
      return "parts_not_told_apart";
    case FindingCode::operator_spread:
      return "operator_spread";
    case FindingCode::operator_offset:
      return "operator_offset";
    case FindingCode::operator_bias:
      return "operator_bias";
    case FindingCode::instrument_spread:
      return "instrument_spread";
    case FindingCode::instrument_offset:
      return "instrument_offset";
    case FindingCode::instrument_bias:
      break;
  }
  return "instrument_bias";
}

std::vector<Finding> findings_of(const Study& study) {
  std::vector<Finding> findings;
  put_dominant(findings, study);
  if (study.full && study.full->table.interaction) {
    const auto p = study.full->table.interaction->p;
    if (p && *p <= kLevel) findings.push_back({FindingCode::interaction_present, {}, {}, p});
  }
  const auto parts_p = (study.is_pooled ? *study.pooled : *study.full).table.part.p;
  if (parts_p.value_or(1.0) > kLevel) findings.push_back({FindingCode::parts_not_told_apart, {}, {}, parts_p});
  put_groups(findings, study.by_operator,
             {FindingCode::operator_spread, FindingCode::operator_offset, FindingCode::operator_bias});
  if (study.by_instrument) {
    put_groups(findings, study.by_instrument->groups,
               {FindingCode::instrument_spread, FindingCode::instrument_offset, FindingCode::instrument_bias});
  }
  return findings;
}

}  // namespace brakewright::gauge_study
