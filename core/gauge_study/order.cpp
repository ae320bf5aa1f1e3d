#include "core/gauge_study/order.hpp"

#include <numeric>

#include "core/input_error.hpp"

namespace brakewright::gauge_study {
namespace {

void want(std::size_t count, std::size_t least, std::size_t most, const char* field, const char* accepted) {
  if (count < least || count > most) throw InputError("out_of_range", field, accepted);
}

std::vector<Turn> turns_of_one(std::size_t parts, std::size_t repeats, Random random) {
  std::vector<std::size_t> order(parts);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<Turn> turns;
  for (std::size_t round = 0; round < repeats; ++round) {
    do {
      shuffle(order, random);
    } while (!turns.empty() && order.front() == turns.back().part);
    for (const std::size_t part : order) turns.push_back({.part = part, .repeat = round});
  }
  return turns;
}

}  // namespace

std::vector<std::vector<Turn>> plan_study(std::size_t parts, std::size_t operators, std::size_t repeats,
                                          std::uint64_t seed) {
  want(repeats, 1, 100, "repeats", "from 1 to 100 repeats");
  want(parts, repeats > 1 ? 2 : 1, 1000, "parts",
       "from 2 to 1000 parts, so that none is read twice running; one where each is read once");
  want(operators, 1, 1000, "operators", "from 1 to 1000 operators");
  std::vector<std::vector<Turn>> plan;
  for (std::size_t i = 0; i < operators; ++i) plan.push_back(turns_of_one(parts, repeats, Random(seed, i)));
  return plan;
}

}  // namespace brakewright::gauge_study
