#include "core/circle/curve_model.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace brakewright::curve_model {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using Index = Eigen::Index;

/// Sizes are stepped by this factor's logarithm, from 0.6 to some 200 times the noise of a spot's mean, or more where
/// the readings are spread wider. Chosen, with the weight of "no pattern at all", by simulated coverage.
constexpr double kLogStep = 0.2;
constexpr double kSmallest = 0.6;
constexpr double kNoPatternWeight = 0.09;

struct Spots {
  std::vector<double> means;
  std::vector<double> variances;
  MatrixXd waves;  ///< cos t, sin t, cos 2t, ... of each spot
  std::vector<std::size_t> circles;
};

/// How much of the rounding error is the same in every repeat of a spot: 0 when the scatter carries readings over many
/// steps, 1 when it never leaves one. From the characteristic function of the scatter.
double common_rounding(const ReadingNoise& noise) {
  if (noise.repeatability_um <= 0) return 1;
  const double ratio = noise.repeatability_um / noise.resolution_um;
  double sum = 0;
  for (int m = 1; m <= 50; ++m) {
    const double turns = 2 * std::numbers::pi * m * ratio;
    sum += std::exp(-turns * turns) / (m * m);
  }
  return 6 / (std::numbers::pi * std::numbers::pi) * sum;
}

Spots spots_of(const CurvePoints& points, const ReadingNoise& noise) {
  Spots spots{.means = {}, .variances = {}, .waves = {}, .circles = points.circles};
  const auto count = static_cast<Index>(points.angles_deg.size());
  spots.waves.resize(count, 2 * static_cast<Index>(kDrawnOrders));
  const double scatter = noise.repeatability_um * noise.repeatability_um;
  const double rounding = noise.resolution_um * noise.resolution_um / 12;
  const double common = noise.resolution_um > 0 ? common_rounding(noise) : 0;
  for (Index i = 0; i < count; ++i) {
    const auto& readings = points.readings_um[static_cast<std::size_t>(i)];
    const auto n = static_cast<double>(readings.size());
    double sum = 0;
    for (const double reading : readings) sum += reading;
    spots.means.push_back(sum / n);
    spots.variances.push_back((scatter + rounding * (1 - common)) / n + rounding * common);
    const double angle = points.angles_deg[static_cast<std::size_t>(i)] * std::numbers::pi / 180;
    for (Index k = 0; k < static_cast<Index>(kDrawnOrders); ++k) {
      spots.waves(i, 2 * k) = std::cos(static_cast<double>(k + 1) * angle);
      spots.waves(i, 2 * k + 1) = std::sin(static_cast<double>(k + 1) * angle);
    }
  }
  return spots;
}

std::vector<Circle> circles_of(const Spots& spots) {
  const std::size_t count = 1 + *std::max_element(spots.circles.begin(), spots.circles.end());
  std::vector<Circle> circles(count);
  std::vector<double> weights(count, 0);
  for (std::size_t i = 0; i < spots.means.size(); ++i) {
    const std::size_t c = spots.circles[i];
    const double weight = 1 / spots.variances[i];
    weights[c] += weight;
    circles[c].mean += weight * spots.means[i];
    for (std::size_t j = 0; j < 2 * kDrawnOrders; ++j) {
      circles[c].mean_waves[j] += weight * spots.waves(static_cast<Index>(i), static_cast<Index>(j));
    }
  }
  for (std::size_t c = 0; c < count; ++c) {
    circles[c].mean /= weights[c];
    circles[c].level_sd = 1 / std::sqrt(weights[c]);
    for (double& wave : circles[c].mean_waves) wave /= weights[c];
  }
  return circles;
}

/// Readings and waves less their circle's means, in units of the noise.
struct Whitened {
  VectorXd readings;
  MatrixXd waves;
};

Whitened whiten(const Spots& spots, const std::vector<Circle>& circles) {
  const auto count = static_cast<Index>(spots.means.size());
  Whitened white{VectorXd(count), MatrixXd(count, spots.waves.cols())};
  for (Index i = 0; i < count; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const Circle& circle = circles[spots.circles[at]];
    const double weight = 1 / std::sqrt(spots.variances[at]);
    white.readings[i] = weight * (spots.means[at] - circle.mean);
    for (Index j = 0; j < spots.waves.cols(); ++j) {
      white.waves(i, j) = weight * (spots.waves(i, j) - circle.mean_waves[static_cast<std::size_t>(j)]);
    }
  }
  return white;
}

/// Prior hypotheses: how fast orders fall off, up to which order, and how alike several circles are.
std::vector<Pattern> hypotheses(std::size_t circle_count) {
  const bool several = circle_count > 1;
  const std::vector<std::size_t> highest =
      several ? std::vector<std::size_t>{1, 2, 4, 8} : std::vector<std::size_t>{1, 2, 3, 4, 6, 8, 12};
  const std::vector<double> falls = several ? std::vector<double>{0, 1, 2.5} : std::vector<double>{0, 1, 2, 3};
  const std::vector<double> own_shares = several ? std::vector<double>{0.02, 0.2, 0.7} : std::vector<double>{0};
  std::vector<Pattern> patterns;
  for (const double own : own_shares) {
    for (const std::size_t orders : highest) {
      for (const double fall : falls) {
        if (orders == 1 && fall != falls.front()) continue;
        Pattern pattern;
        pattern.orders = orders;
        pattern.dimensions = 2 * orders * (several ? 1 + circle_count : 1);
        pattern.shared = std::sqrt(1 - own);
        pattern.own = std::sqrt(own);
        pattern.log_prior =
            std::log(static_cast<double>(orders) * (orders == 1 ? static_cast<double>(falls.size()) : 1));
        double sum = 0;
        for (std::size_t k = 1; k <= orders; ++k) {
          pattern.order_weight.push_back(std::pow(static_cast<double>(k), -fall));
          sum += pattern.order_weight.back() * pattern.order_weight.back();
        }
        for (double& weight : pattern.order_weight) weight /= std::sqrt(sum);
        patterns.push_back(std::move(pattern));
      }
    }
  }
  return patterns;
}

/// The readings' dependence on the pattern's standard coordinates.
MatrixXd design(const Pattern& pattern, const Whitened& white, const Spots& spots) {
  const auto width = static_cast<Index>(2 * pattern.orders);
  MatrixXd matrix = MatrixXd::Zero(white.waves.rows(), static_cast<Index>(pattern.dimensions));
  for (Index i = 0; i < matrix.rows(); ++i) {
    const auto own_block = (1 + static_cast<Index>(spots.circles[static_cast<std::size_t>(i)])) * width;
    for (Index j = 0; j < width; ++j) {
      const double value = white.waves(i, j) * pattern.order_weight[static_cast<std::size_t>(j / 2)];
      matrix(i, j) = pattern.shared * value;
      if (pattern.own > 0) matrix(i, own_block + j) = pattern.own * value;
    }
  }
  return matrix;
}

/// Finds the directions that the readings see, from the smaller of the two Gram matrices.
void look(Pattern& pattern, const Whitened& white, const Spots& spots) {
  const MatrixXd matrix = design(pattern, white, spots);
  const bool by_readings = matrix.rows() < matrix.cols();
  const MatrixXd gram = by_readings ? MatrixXd(matrix * matrix.transpose()) : MatrixXd(matrix.transpose() * matrix);
  const Eigen::SelfAdjointEigenSolver<MatrixXd> solver(gram);
  const double least = 1e-9 * std::max(solver.eigenvalues().maxCoeff(), 1e-300);
  double explained = 0;
  for (Index j = gram.rows() - 1; j >= 0; --j) {
    const double strength = solver.eigenvalues()[j];
    if (strength <= least) break;
    const double root = std::sqrt(strength);
    const VectorXd own = solver.eigenvectors().col(j);
    const VectorXd direction = by_readings ? VectorXd(matrix.transpose() * own / root) : own;
    const double score = by_readings ? own.dot(white.readings) : (matrix * own).dot(white.readings) / root;
    pattern.strength.push_back(strength);
    pattern.score.push_back(score);
    explained += score * score;
    for (Index d = 0; d < direction.size(); ++d) pattern.directions.push_back(static_cast<float>(direction[d]));
  }
  pattern.seen = pattern.strength.size();
  pattern.unexplained = std::max(0.0, white.readings.squaredNorm() - explained);
}

double log_evidence(const Pattern& pattern, double size_um) {
  double sum = pattern.unexplained;
  for (std::size_t j = 0; j < pattern.seen; ++j) {
    const double spread = 1 + size_um * size_um * pattern.strength[j];
    sum += std::log(spread) + pattern.score[j] * pattern.score[j] / spread;
  }
  return -sum / 2;
}

double normal_share(double from, double to) {
  if (from > 0) return normal_share(-to, -from);
  return (std::erfc(-to * std::numbers::sqrt2 / 2) - std::erfc(-from * std::numbers::sqrt2 / 2)) / 2;
}

/// Log of the exact probability density of the rounded readings of a flat circle, on the scale of `log_evidence`.
double log_flat_circle(const Spots& spots, const Circle& circle, std::size_t which, const ReadingNoise& noise) {
  const double step = noise.resolution_um;
  const double sd = std::max(noise.repeatability_um, step / 100);
  constexpr int kSteps = 400;
  double log_scale = -std::log(2 * std::numbers::pi) / 2 - std::log(circle.level_sd);
  double highest = -1e300;
  double lowest = 1e300;
  std::vector<double> values;
  for (std::size_t i = 0; i < spots.means.size(); ++i) {
    if (spots.circles[i] != which) continue;
    values.push_back(spots.means[i]);
    highest = std::max(highest, values.back());
    lowest = std::min(lowest, values.back());
    log_scale += std::log(2 * std::numbers::pi * spots.variances[i]) / 2 - std::log(step);
  }
  const double from = lowest - step / 2 - 4 * sd;
  const double width = (highest - lowest + step + 8 * sd) / kSteps;
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double level = from + (i + 0.5) * width;
    double product = 1;
    for (const double value : values) {
      product *= normal_share((value - step / 2 - level) / sd, (value + step / 2 - level) / sd);
    }
    sum += product * width;
  }
  return sum > 0 ? std::log(sum) + log_scale : -1e300;
}

/// The exact log evidence of "no pattern at all" where rounding is coarse and every spot's repeats agree.
std::optional<double> log_flat(const CurvePoints& points, const Spots& spots, const std::vector<Circle>& circles,
                               const ReadingNoise& noise) {
  if (noise.resolution_um <= 2.2 * noise.repeatability_um) return std::nullopt;
  for (const auto& readings : points.readings_um) {
    const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
    if (*high - *low > 1e-9 * noise.resolution_um) return std::nullopt;
  }
  double sum = 0;
  for (std::size_t c = 0; c < circles.size(); ++c) sum += log_flat_circle(spots, circles[c], c, noise);
  return sum;
}

double largest_size(const Spots& spots, double noise_um) {
  const auto [low, high] = std::minmax_element(spots.means.begin(), spots.means.end());
  return std::max(200 * noise_um, 6 * (*high - *low));
}

double typical_noise(const Spots& spots) {
  double sum = 0;
  for (const double variance : spots.variances) sum += variance;
  return std::sqrt(sum / static_cast<double>(spots.variances.size()));
}

std::vector<Component> weighed(const std::vector<Pattern>& patterns, double smallest_um, double largest_um,
                               std::optional<double> flat) {
  std::vector<Component> components;
  double best = -1e300;
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    const double none = std::max(log_evidence(patterns[i], 0), flat.value_or(-1e300));
    components.push_back({i, 0, patterns[i].log_prior + none + std::log(kNoPatternWeight / kLogStep)});
    best = std::max(best, components.back().weight);
    for (double size = smallest_um; size <= largest_um; size *= std::exp(kLogStep)) {
      components.push_back({i, size, patterns[i].log_prior + log_evidence(patterns[i], size)});
      best = std::max(best, components.back().weight);
    }
  }
  double sum = 0;
  for (Component& component : components) sum += component.weight = std::exp(component.weight - best);
  for (Component& component : components) component.weight /= sum;
  return components;
}

/// Mean of the curves' coefficients over all components.
void average(Model& model) {
  for (std::size_t c = 0; c < model.circles.size(); ++c) {
    Circle& circle = model.circles[c];
    for (const Component& component : model.components) {
      if (component.weight < 1e-9) continue;
      const Pattern& pattern = model.patterns[component.pattern];
      const std::size_t width = 2 * pattern.orders;
      for (std::size_t j = 0; j < pattern.seen; ++j) {
        const double size = component.size_um;
        const double spread = 1 + size * size * pattern.strength[j];
        const double centre =
            component.weight * size * size * std::sqrt(pattern.strength[j]) * pattern.score[j] / spread;
        const float* direction = pattern.directions.data() + j * pattern.dimensions;
        for (std::size_t d = 0; d < width; ++d) {
          const double own = pattern.own > 0 ? static_cast<double>(direction[(1 + c) * width + d]) : 0;
          circle.mean_coefficients[d] += centre * pattern.order_weight[d / 2] *
                                         (pattern.shared * static_cast<double>(direction[d]) + pattern.own * own);
        }
      }
    }
    circle.mean_level = circle.mean;
    for (std::size_t j = 0; j < 2 * kDrawnOrders; ++j) {
      circle.mean_level -= circle.mean_waves[j] * circle.mean_coefficients[j];
    }
  }
}

}  // namespace

Model weigh(const CurvePoints& points, const ReadingNoise& noise) {
  const Spots spots = spots_of(points, noise);
  Model model{.patterns = {}, .components = {}, .circles = circles_of(spots)};
  const Whitened white = whiten(spots, model.circles);
  model.patterns = hypotheses(model.circles.size());
  for (Pattern& pattern : model.patterns) look(pattern, white, spots);
  const double typical = typical_noise(spots);
  model.components = weighed(model.patterns, kSmallest * typical, largest_size(spots, typical),
                             log_flat(points, spots, model.circles, noise));
  average(model);
  return model;
}

void put(const Pattern& pattern, double size_um, std::size_t circle, const Lanes* unit, CurveBlock& block) {
  const std::size_t own_first = (1 + circle) * 2 * pattern.orders;
  block.orders = size_um > 0 ? pattern.orders : 0;
  for (std::size_t k = 0; k < block.orders; ++k) {
    const double factor = size_um * pattern.order_weight[k];
    const auto shared = static_cast<float>(factor * pattern.shared);
    block.cosine[k] = shared * unit[2 * k];
    block.sine[k] = shared * unit[2 * k + 1];
    if (pattern.own <= 0) continue;
    const auto own = static_cast<float>(factor * pattern.own);
    block.cosine[k] += own * unit[own_first + 2 * k];
    block.sine[k] += own * unit[own_first + 2 * k + 1];
  }
}

void put_level(const Circle& circle, Random& random, CurveBlock& block) {
  std::array<double, kLanes> noise;
  random.fill_normal(noise);
  std::array<float, kLanes> level;
  for (std::size_t l = 0; l < kLanes; ++l) level[l] = static_cast<float>(circle.mean + circle.level_sd * noise[l]);
  block.level = Lanes::from(level);
  for (std::size_t k = 0; k < block.orders; ++k) {
    block.level -= static_cast<float>(circle.mean_waves[2 * k]) * block.cosine[k] +
                   static_cast<float>(circle.mean_waves[2 * k + 1]) * block.sine[k];
  }
}

}  // namespace brakewright::curve_model
