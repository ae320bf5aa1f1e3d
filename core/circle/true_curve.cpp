#include "core/circle/true_curve.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/circle/curve_model.hpp"

namespace brakewright {
namespace {

using curve_model::Component;
using curve_model::Pattern;

/// Standard draws of one pattern turned into draws given the readings, `kLanes` at a time.
class PatternDraws {
 public:
  /// @return one `Lanes` for each coordinate of the pattern
  const Lanes* next(const Pattern& pattern, double size_um, Random& random) {
    const std::size_t dimensions = pattern.dimensions;
    noise_.resize(dimensions * kLanes);
    normal_.resize(dimensions);
    random.fill_normal(noise_);
    for (std::size_t d = 0; d < dimensions; ++d) normal_[d] = narrowed(noise_.data() + d * kLanes);
    seen_.resize(pattern.seen);
    for (std::size_t j = 0; j < pattern.seen; ++j) seen_[j] = moved(pattern, size_um, j);
    for (std::size_t d = 0; d < dimensions; ++d) {
      Lanes sum = normal_[d];
      for (std::size_t j = 0; j < pattern.seen; ++j) sum += pattern.directions[j * dimensions + d] * seen_[j];
      normal_[d] = sum;
    }
    return normal_.data();
  }

 private:
  static Lanes narrowed(const double* values) {
    std::array<float, kLanes> narrow;
    for (std::size_t l = 0; l < kLanes; ++l) narrow[l] = static_cast<float>(values[l]);
    return Lanes::from(narrow);
  }

  /// What must be added along one seen direction, so that the draw has the mean and the spread that the readings leave.
  Lanes moved(const Pattern& pattern, double size_um, std::size_t j) const {
    const double spread = 1 + size_um * size_um * pattern.strength[j];
    const auto centre = static_cast<float>(size_um * std::sqrt(pattern.strength[j]) * pattern.score[j] / spread);
    const auto shrink = static_cast<float>(1 / std::sqrt(spread) - 1);
    const float* direction = pattern.directions.data() + j * pattern.dimensions;
    Lanes along{};
    for (std::size_t d = 0; d < pattern.dimensions; ++d) along += direction[d] * normal_[d];
    return Lanes::all(centre) + shrink * along;
  }

  std::vector<double> noise_;
  std::vector<Lanes> normal_;
  std::vector<Lanes> seen_;
};

/// The component behind each block, in proportion to their weights (systematic resampling), in random order.
std::vector<std::size_t> shared_out(const std::vector<Component>& components, std::size_t blocks, Random& random) {
  std::vector<std::size_t> order;
  order.reserve(blocks);
  const double start = random.uniform();
  double reached = 0;
  for (std::size_t i = 0; i < components.size(); ++i) {
    reached += components[i].weight * static_cast<double>(blocks);
    while (order.size() < blocks && static_cast<double>(order.size()) + start < reached) order.push_back(i);
  }
  while (order.size() < blocks) order.push_back(components.size() - 1);
  for (std::size_t i = blocks; i > 1; --i) std::swap(order[i - 1], order[random.below(i)]);
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

struct CurveStream::State {
  const curve_model::Model& model;
  Random& random;
  std::vector<std::size_t> order;
  std::size_t next = 0;
  std::vector<CurveBlock> blocks;
  PatternDraws draws;
};

CurveStream::CurveStream(const TrueCurve& curve, std::size_t draws, Random& random)
    : state_(std::make_unique<State>(
          State{.model = curve.state_->model,
                .random = random,
                .order = shared_out(curve.state_->model.components, (draws + kLanes - 1) / kLanes, random),
                .blocks = std::vector<CurveBlock>(curve.circles()),
                .draws = {}})) {}
CurveStream::~CurveStream() = default;

std::size_t CurveStream::blocks() const { return state_->order.size(); }

std::span<const CurveBlock> CurveStream::next() {
  const Component& component = state_->model.components[state_->order[state_->next]];
  ++state_->next;
  const Pattern& pattern = state_->model.patterns[component.pattern];
  const Lanes* unit = state_->draws.next(pattern, component.size_um, state_->random);
  for (std::size_t c = 0; c < state_->blocks.size(); ++c) {
    curve_model::put(pattern, component.size_um, c, unit, state_->blocks[c]);
    curve_model::put_level(state_->model.circles[c], state_->random, state_->blocks[c]);
  }
  return state_->blocks;
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
