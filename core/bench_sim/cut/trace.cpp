#include "core/bench_sim/cut/trace.hpp"

#include <algorithm>
#include <cstddef>

namespace brakewright::bench_sim {

TurnReport report_of(const CutTrace& trace) {
  TurnReport report;
  if (trace.thrust_n.empty()) return report;
  const auto angles = static_cast<double>(trace.thrust_n.size());
  std::size_t contacts = 0, rubbed = 0;
  for (std::size_t i = 0; i < trace.thrust_n.size(); ++i) {
    report.mean_thrust_n += static_cast<double>(trace.thrust_n[i]) / angles;
    const bool contact = trace.thickest_um[i] > 0;
    contacts += contact;
    rubbed += contact && !(trace.taken_um[i] > 0);
  }
  report.most_thrust_n = static_cast<double>(*std::max_element(trace.thrust_n.begin(), trace.thrust_n.end()));
  report.thickest_um = static_cast<double>(*std::max_element(trace.thickest_um.begin(), trace.thickest_um.end()));
  const auto [low, high] = std::minmax_element(trace.give_um.begin(), trace.give_um.end());
  report.swing_um = static_cast<double>(*high) - static_cast<double>(*low);
  report.contact_share = static_cast<double>(contacts) / angles;
  if (contacts > 0) report.rub_share = static_cast<double>(rubbed) / static_cast<double>(contacts);
  report.rubs = report.rub_share > 0.5;
  return report;
}

std::vector<float> in_time_order(const std::vector<float>& by_angle, int next_angle) {
  std::vector<float> ordered = by_angle;
  if (!ordered.empty()) std::rotate(ordered.begin(), ordered.begin() + next_angle, ordered.end());
  return ordered;
}

}  // namespace brakewright::bench_sim
