#include "report/content/car_turns.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "shop/progress.hpp"
#include "shop/states.hpp"

namespace brakewright::report {

namespace {

constexpr int kFewestAngles = 3;

/// Current readings of a part on the car.
std::vector<const shop::Reading*> on_car(const shop::JobFile& file, const shop::Part& part) {
  std::vector<const shop::Reading*> found;
  const auto states = shop::states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const shop::Reading& reading = file.readings[k];
    const bool counts = states[k] == shop::ReadingState::current && reading.part_id == part.id;
    if (counts && shop::is_on_car(reading.stage)) found.push_back(&reading);
  }
  return found;
}

CarTime time_of(const shop::Reading& reading, const shop::Refit* refit) {
  if (reading.stage == shop::Stage::on_car) return CarTime::as_it_came;
  return refit != nullptr && reading.received_at >= refit->at ? CarTime::after_refit : CarTime::to_refit;
}

void sum_up(CarTurn& turn) {
  std::map<double, std::pair<double, int>> means;
  for (std::size_t k = 0; k < turn.trace.angles_deg.size(); ++k) {
    auto& [mean, count] = means[turn.trace.angles_deg[k]];
    mean += (turn.trace.values_um[k] - mean) / ++count;
  }
  turn.angles = static_cast<int>(means.size());
  const auto less = [](const auto& a, const auto& b) { return a.second.first < b.second.first; };
  const auto highest = std::max_element(means.begin(), means.end(), less);
  const auto lowest = std::min_element(means.begin(), means.end(), less);
  turn.high_deg = highest->first;
  turn.trace = {};
  for (const auto& [angle_deg, mean] : means) {
    turn.trace.angles_deg.push_back(angle_deg);
    turn.trace.values_um.push_back(mean.first);
  }
  if (turn.angles >= kFewestAngles) turn.runout_um = highest->second.first - lowest->second.first;
}

}  // namespace

std::vector<CarTurn> car_turns_of(const shop::JobFile& file, const shop::Part& part) {
  using Key = std::tuple<CarTime, std::int64_t>;
  constexpr std::int64_t kHub = -1;
  const shop::Refit* refit = last_refit(file, part);
  std::map<Key, CarTurn> turns;
  for (const shop::Reading* reading : on_car(file, part)) {
    const bool hub = reading->quantity == shop::Quantity::hub_runout;
    if (!hub && reading->quantity != shop::Quantity::runout_outboard) continue;
    const CarTime time = time_of(*reading, refit);
    CarTurn& turn = turns[{time, hub ? kHub : reading->circle}];
    turn.time = time;
    if (!hub) turn.turned = reading->circle;
    if (const auto plan = shop::plan_of(file, part.id, reading->stage)) turn.points = static_cast<int>(plan->points);
    turn.trace.angles_deg.push_back(reading->angle_deg);
    turn.trace.values_um.push_back(reading->value.value.um());
  }
  std::vector<CarTurn> all;
  for (auto& [key, turn] : turns) {
    sum_up(turn);
    all.push_back(std::move(turn));
  }
  return all;
}

std::optional<double> bearing_play_um(const shop::JobFile& file, const shop::Part& part) {
  std::optional<double> last_um;
  for (const shop::Reading* reading : on_car(file, part)) {
    if (reading->quantity == shop::Quantity::bearing_play) last_um = reading->value.value.um();
  }
  return last_um;
}

const shop::Refit* last_refit(const shop::JobFile& file, const shop::Part& part) {
  const auto found = std::find_if(file.refits.rbegin(), file.refits.rend(),
                                  [&](const shop::Refit& refit) { return refit.part_id == part.id; });
  return found == file.refits.rend() ? nullptr : &*found;
}

}  // namespace brakewright::report
