#include "core/circle/true_curve.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "core/circle/curve_model.hpp"

namespace brakewright {
namespace {

using curve_model::Component;
using curve_model::Pattern;

/// Draws of one component, in the model's own coordinates, `kLanes` at a time.
class ComponentDraws {
 public:
  ComponentDraws(const Pattern& pattern, double size_um)
      : pattern_(pattern),
        noise_(pattern.dimensions * kLanes),
        normal_(pattern.dimensions),
        seen_(pattern.seen),
        centre_(pattern.seen),
        shrink_(pattern.seen) {
    for (std::size_t j = 0; j < pattern.seen; ++j) {
      const double spread = 1 + size_um * size_um * pattern.strength[j];
      centre_[j] = static_cast<float>(size_um * std::sqrt(pattern.strength[j]) * pattern.score[j] / spread);
      shrink_[j] = static_cast<float>(1 / std::sqrt(spread) - 1);
    }
  }

  /// The next block of draws: one `Lanes` for each coordinate.
  const std::vector<Lanes>& next(Random& random) {
    random.fill_normal(noise_);
    for (std::size_t d = 0; d < pattern_.dimensions; ++d) {
      for (std::size_t l = 0; l < kLanes; ++l) normal_[d][l] = static_cast<float>(noise_[d * kLanes + l]);
    }
    for (std::size_t j = 0; j < pattern_.seen; ++j) seen_[j] = moved(j);
    for (std::size_t j = 0; j < pattern_.seen; ++j) {
      const float* direction = pattern_.directions.data() + j * pattern_.dimensions;
      for (std::size_t d = 0; d < pattern_.dimensions; ++d) {
        for (std::size_t l = 0; l < kLanes; ++l) normal_[d][l] += direction[d] * seen_[j][l];
      }
    }
    return normal_;
  }

 private:
  Lanes moved(std::size_t j) const {
    const float* direction = pattern_.directions.data() + j * pattern_.dimensions;
    Lanes along{};
    for (std::size_t d = 0; d < pattern_.dimensions; ++d) {
      for (std::size_t l = 0; l < kLanes; ++l) along[l] += direction[d] * normal_[d][l];
    }
    for (std::size_t l = 0; l < kLanes; ++l) along[l] = centre_[j] + shrink_[j] * along[l];
    return along;
  }

  const Pattern& pattern_;
  std::vector<double> noise_;
  std::vector<Lanes> normal_;
  std::vector<Lanes> seen_;
  std::vector<float> centre_;
  std::vector<float> shrink_;
};

/// Whole numbers of draws for each component, in proportion to their weights: systematic resampling.
std::vector<std::size_t> shared_out(const std::vector<Component>& components, std::size_t draws, Random& random) {
  std::vector<std::size_t> counts(components.size(), 0);
  const double start = random.uniform();
  double reached = 0;
  std::size_t given = 0;
  for (std::size_t i = 0; i < components.size(); ++i) {
    reached += components[i].weight * static_cast<double>(draws);
    const auto upto = std::min(draws, static_cast<std::size_t>(std::floor(reached + start)));
    counts[i] = upto > given ? upto - given : 0;
    given += counts[i];
  }
  counts.back() += draws - given;
  return counts;
}

std::vector<std::size_t> shuffled(std::size_t count, Random& random) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (std::size_t i = count; i > 1; --i) std::swap(order[i - 1], order[random.below(i)]);
  return order;
}

}  // namespace

struct TrueCurve::State {
  curve_model::Model model;
};

TrueCurve::TrueCurve(const CurvePoints& points, const ReadingNoise& noise)
    : state_(std::make_unique<State>(State{curve_model::weigh(points, noise)})) {}
TrueCurve::~TrueCurve() = default;
TrueCurve::TrueCurve(TrueCurve&&) noexcept = default;
TrueCurve& TrueCurve::operator=(TrueCurve&&) noexcept = default;

std::size_t TrueCurve::circles() const { return state_->model.circles.size(); }

std::vector<std::vector<CurveBlock>> TrueCurve::sample(std::size_t draws, Random& random) const {
  const auto& model = state_->model;
  const std::size_t blocks = (draws + kLanes - 1) / kLanes;
  std::vector<std::vector<CurveBlock>> curves(circles(), std::vector<CurveBlock>(blocks));
  const auto counts = shared_out(model.components, blocks * kLanes, random);
  const auto places = shuffled(blocks * kLanes, random);
  std::size_t next_place = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] == 0) continue;
    const Component& component = model.components[i];
    const Pattern& pattern = model.patterns[component.pattern];
    ComponentDraws source(pattern, component.size_um);
    for (std::size_t made = 0; made < counts[i]; made += kLanes) {
      const auto& unit = source.next(random);
      const std::size_t used = std::min(kLanes, counts[i] - made);
      for (std::size_t c = 0; c < circles(); ++c) {
        for (std::size_t l = 0; l < used; ++l) {
          const std::size_t place = places[next_place + l];
          curve_model::put(pattern, component.size_um, c, unit, l, curves[c][place / kLanes], place % kLanes);
        }
      }
      next_place += used;
    }
  }
  for (std::size_t c = 0; c < circles(); ++c) curve_model::put_levels(model.circles[c], random, curves[c]);
  return curves;
}

std::vector<double> TrueCurve::mean_at(std::span<const double> angles_deg, std::size_t circle) const {
  const auto& coefficients = state_->model.circles[circle].mean_coefficients;
  std::vector<double> values;
  values.reserve(angles_deg.size());
  for (const double angle : angles_deg) {
    double value = state_->model.circles[circle].mean_level;
    for (std::size_t k = 0; k < kDrawnOrders; ++k) {
      const double phase = static_cast<double>(k + 1) * angle * std::numbers::pi / 180;
      value += coefficients[2 * k] * std::cos(phase) + coefficients[2 * k + 1] * std::sin(phase);
    }
    values.push_back(value);
  }
  return values;
}

}  // namespace brakewright
