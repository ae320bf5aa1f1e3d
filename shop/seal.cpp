#include "shop/seal.hpp"

#include <cmath>
#include <cstdint>
#include <iterator>
#include <nlohmann/json.hpp>

#include "shop/journal/chain.hpp"
#include "shop/json.hpp"

namespace brakewright::shop {
namespace {

/// Writes whole numbers without a point, as other programs do that carry JSON about.
void plain_numbers(nlohmann::json& value) {
  constexpr double kExact = 9007199254740992.0;  // 2^53
  if (value.is_structured()) {
    for (auto& inner : value) plain_numbers(inner);
  } else if (value.is_number_float()) {
    const auto number = value.get<double>();
    if (std::trunc(number) == number && std::abs(number) < kExact) value = static_cast<std::int64_t>(number);
  }
}

/// Takes out members that are null or an empty list, so that a field which a later version adds, and a job of before
/// does not have, changes no seal.
void leave_out_what_is_not_there(nlohmann::json& value) {
  if (value.is_object()) {
    for (auto member = value.begin(); member != value.end();) {
      leave_out_what_is_not_there(*member);
      const bool absent = member->is_null() || (member->is_structured() && member->empty());
      member = absent ? value.erase(member) : std::next(member);
    }
  } else if (value.is_array()) {
    for (auto& inner : value) leave_out_what_is_not_there(inner);
  }
}

}  // namespace

std::string seal_of(JobFile file) {
  file.job.seal_sha256.clear();
  file.job.number = 0;
  file.amendments.clear();
  file.seq = 0;
  auto json = nlohmann::json::parse(to_json(file).dump());
  leave_out_what_is_not_there(json);
  plain_numbers(json);
  return sha256_of(json.dump());
}

}  // namespace brakewright::shop
