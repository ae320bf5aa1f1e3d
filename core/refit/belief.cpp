#include "core/refit/belief.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <map>

#include "core/degree.hpp"

namespace brakewright::refit {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kLeastU_um = 1e-6;  ///< an amplitude without uncertainty: exact for any indicator
constexpr std::size_t kSizes = 10;
constexpr double kLeastWeight = 1e-5;  ///< of the likeliest hypothesis

/// How a pattern's orders fall, and the highest it has.
struct Shape {
  double fall = 0;
  int highest = 0;
};
constexpr Shape kShapes[] = {{0, 60}, {1, 60}, {1, 6}, {2, 60}, {2, 6}, {2, 3}, {3, 6}};

/// Coefficients that the evidence ties together.
using Block = std::vector<std::size_t>;

std::vector<Block> blocks_of(const Evidence& evidence) {
  const std::size_t n = evidence.size();
  std::vector<std::size_t> root(n);
  for (std::size_t i = 0; i < n; ++i) root[i] = i;
  const auto top = [&](std::size_t i) {
    while (root[i] != i) i = root[i];
    return i;
  };
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double tie = std::abs(evidence.information[i * n + j]);
      const double own = std::sqrt(evidence.information[i * n + i] * evidence.information[j * n + j]);
      if (tie > 1e-9 * own) root[top(i)] = top(j);
    }
  }
  std::map<std::size_t, Block> by_root;
  for (std::size_t i = 0; i < n; ++i) by_root[top(i)].push_back(i);
  std::vector<Block> blocks;
  for (auto& [first, block] : by_root) blocks.push_back(std::move(block));
  return blocks;
}

/// One body's pattern: standard deviation of each coefficient, by place of its order.
struct Pattern {
  std::vector<double> sd_um;
};

struct Range {
  double low = 0, high = 0;
};

/// Sizes from well under what the readings can see to well over what they show.
Range sizes_of(const Evidence& evidence) {
  const std::size_t n = evidence.size();
  double finest = 0, largest = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double information = evidence.information[i * n + i];
    if (information <= 0) continue;
    const double u = 1 / std::sqrt(information);
    if (u > 2 * kLeastU_um) finest = finest == 0 ? u : std::min(finest, u);
    largest = std::max(largest, std::abs(evidence.weighted[i]) / information);
  }
  if (finest == 0) finest = 1;
  const double low = std::max(0.3 * finest, 1e-4 * largest);
  return {.low = low, .high = std::max(4 * largest, 10 * low)};
}

std::vector<Pattern> patterns_of(const Evidence& evidence) {
  const Range sizes = sizes_of(evidence);
  const std::size_t shapes = evidence.orders.size() > 1 ? std::size(kShapes) : 1;
  std::vector<Pattern> patterns;
  for (std::size_t i = 0; i < kSizes; ++i) {
    const double size = sizes.low * std::pow(sizes.high / sizes.low, static_cast<double>(i) / (kSizes - 1));
    for (std::size_t n = 0; n < shapes; ++n) {
      Pattern pattern;
      for (const int order : evidence.orders) {
        pattern.sd_um.push_back(order > kShapes[n].highest ? 0 : size * std::pow(order, -kShapes[n].fall));
      }
      patterns.push_back(std::move(pattern));
    }
  }
  return patterns;
}

/// The evidence on one block.
struct Piece {
  MatrixXd information;
  VectorXd weighted;
  Block block;
};

double scale_at(std::size_t at, const Evidence& evidence, const Pattern& hub, const Pattern& part) {
  return evidence.absent[at] ? 0 : (at % 4 < 2 ? hub : part).sd_um[at / 4];
}

/// One block under one hypothesis: x = scale (mean + factor^-T e), e standard normal. Made to be used again and again,
/// so that its lists keep their room.
class Solved {
 public:
  void solve(const Piece& piece, const Evidence& evidence, const Pattern& hub, const Pattern& part) {
    size_ = piece.block.size();
    scale_.resize(size_);
    mean_.resize(size_);
    factor_.resize(size_ * size_);
    for (std::size_t i = 0; i < size_; ++i) scale_[i] = scale_at(piece.block[i], evidence, hub, part);
    double squares = 0, log_sum = 0;
    for (std::size_t i = 0; i < size_; ++i) {
      const auto row = static_cast<Index>(i);
      for (std::size_t j = 0; j <= i; ++j) {
        double sum = scale_[i] * piece.information(row, static_cast<Index>(j)) * scale_[j] + (i == j ? 1 : 0);
        for (std::size_t k = 0; k < j; ++k) sum -= at(i, k) * at(j, k);
        // The matrix is the unit and what is not negative: no pivot falls under 1 but by rounding.
        at(i, j) = i == j ? std::sqrt(std::max(sum, 1.0)) : sum / at(j, j);
      }
      double sum = scale_[i] * piece.weighted[row];
      for (std::size_t k = 0; k < i; ++k) sum -= at(i, k) * mean_[k];
      mean_[i] = sum / at(i, i);
      squares += mean_[i] * mean_[i];
      log_sum += std::log(at(i, i));
    }
    log_likelihood_ = squares / 2 - log_sum;
  }

  double log_likelihood() const { return log_likelihood_; }

  /// Turns the half-solved mean, or standard normal draws with it, into coefficients.
  void put(std::vector<double>& half) const {
    for (std::size_t i = size_; i-- > 0;) {
      for (std::size_t k = i + 1; k < size_; ++k) half[i] -= at(k, i) * half[k];
      half[i] /= at(i, i);
    }
    for (std::size_t i = 0; i < size_; ++i) half[i] *= scale_[i];
  }

  const std::vector<double>& half_mean() const { return mean_; }

 private:
  double& at(std::size_t i, std::size_t j) { return factor_[i * size_ + j]; }
  double at(std::size_t i, std::size_t j) const { return factor_[i * size_ + j]; }

  std::size_t size_ = 0;
  std::vector<double> scale_, mean_, factor_;
  double log_likelihood_ = 0;
};

struct Hypothesis {
  Pattern hub, part;
  double weight = 0;
};

void put_wave(Evidence& evidence, const Harmonic& wave, std::size_t body, std::optional<double> u_um) {
  const auto at = std::find(evidence.orders.begin(), evidence.orders.end(), wave.order) - evidence.orders.begin();
  const double u = std::max(wave.u_amplitude_um.value_or(u_um.value_or(0)), kLeastU_um);
  const double phase = wave.phase_deg * kRadPerDeg;
  const double parts[] = {wave.amplitude_um * std::cos(phase), wave.amplitude_um * std::sin(phase)};
  for (std::size_t i = 0; i < 2; ++i) {
    const std::size_t n = 4 * static_cast<std::size_t>(at) + 2 * body + i;
    evidence.information[n * evidence.size() + n] = 1 / (u * u);
    evidence.weighted[n] = parts[i] / (u * u);
    evidence.absent[n] = false;
  }
}

Evidence empty_evidence(std::vector<int> orders, bool absent) {
  Evidence evidence{.orders = std::move(orders), .information = {}, .weighted = {}, .absent = {}};
  evidence.absent.assign(evidence.size(), absent);
  evidence.information.assign(evidence.size() * evidence.size(), 0);
  evidence.weighted.assign(evidence.size(), 0);
  return evidence;
}

}  // namespace

Evidence evidence_of(const RefitInput& input) {
  std::vector<int> orders;
  for (const auto* waves : {&input.hub, &input.part}) {
    for (const Harmonic& wave : *waves) orders.push_back(wave.order);
  }
  std::sort(orders.begin(), orders.end());
  orders.erase(std::unique(orders.begin(), orders.end()), orders.end());
  Evidence evidence = empty_evidence(std::move(orders), true);
  for (const Harmonic& wave : input.hub) put_wave(evidence, wave, 0, input.u_um);
  for (const Harmonic& wave : input.part) put_wave(evidence, wave, 1, input.u_um);
  return evidence;
}

struct Belief::State {
  Evidence evidence;
  std::vector<Piece> pieces;
  std::vector<Hypothesis> hypotheses;  ///< those that count, their weights summing to 1
};

Belief::Belief(const Evidence& evidence) : state_(std::make_unique<State>()) {
  state_->evidence = evidence;
  const std::size_t n = evidence.size();
  for (Block& block : blocks_of(evidence)) {
    const auto size = static_cast<Index>(block.size());
    Piece piece{.information = MatrixXd(size, size), .weighted = VectorXd(size), .block = {}};
    for (Index i = 0; i < size; ++i) {
      const std::size_t row = block[static_cast<std::size_t>(i)];
      piece.weighted[i] = evidence.weighted[row];
      for (Index j = 0; j < size; ++j) {
        piece.information(i, j) = evidence.information[row * n + block[static_cast<std::size_t>(j)]];
      }
    }
    piece.block = std::move(block);
    state_->pieces.push_back(std::move(piece));
  }
  weigh();
}

void Belief::weigh() {
  const Evidence& evidence = state_->evidence;
  auto& hypotheses = state_->hypotheses;
  const auto patterns = patterns_of(evidence);
  const auto is_part = [](std::size_t at) { return at % 4 >= 2; };
  // A block of one body alone asks for that body's pattern only.
  std::vector<double> of_hub(patterns.size(), 0), of_part(patterns.size(), 0);
  std::vector<const Piece*> mixed;
  Solved solved;
  const auto log_likelihood = [&](const Piece& piece, const Pattern& hub, const Pattern& part) {
    solved.solve(piece, evidence, hub, part);
    return solved.log_likelihood();
  };
  for (const Piece& piece : state_->pieces) {
    const bool any_part = std::any_of(piece.block.begin(), piece.block.end(), is_part);
    const bool all_part = std::all_of(piece.block.begin(), piece.block.end(), is_part);
    if (any_part && !all_part) {
      mixed.push_back(&piece);
      continue;
    }
    for (std::size_t i = 0; i < patterns.size(); ++i) {
      (any_part ? of_part : of_hub)[i] += log_likelihood(piece, patterns[i], patterns[i]);
    }
  }
  double best = -1e300;
  for (std::size_t h = 0; h < patterns.size(); ++h) {
    for (std::size_t p = 0; p < patterns.size(); ++p) {
      double log_weight = of_hub[h] + of_part[p];
      for (const Piece* piece : mixed) log_weight += log_likelihood(*piece, patterns[h], patterns[p]);
      hypotheses.push_back({.hub = patterns[h], .part = patterns[p], .weight = log_weight});
      best = std::max(best, log_weight);
    }
  }
  double sum = 0;
  for (Hypothesis& hypothesis : hypotheses) hypothesis.weight = std::exp(hypothesis.weight - best);
  std::erase_if(hypotheses, [](const Hypothesis& h) { return !(h.weight > kLeastWeight); });
  for (const Hypothesis& hypothesis : hypotheses) sum += hypothesis.weight;
  for (Hypothesis& hypothesis : hypotheses) hypothesis.weight /= sum;
}

Belief::~Belief() = default;

std::vector<double> Belief::mean() const {
  std::vector<double> mean(state_->evidence.size(), 0);
  Solved solved;
  for (const Hypothesis& hypothesis : state_->hypotheses) {
    for (const Piece& piece : state_->pieces) {
      solved.solve(piece, state_->evidence, hypothesis.hub, hypothesis.part);
      std::vector<double> values = solved.half_mean();
      solved.put(values);
      for (std::size_t i = 0; i < piece.block.size(); ++i) mean[piece.block[i]] += hypothesis.weight * values[i];
    }
  }
  return mean;
}

std::vector<float> Belief::draw(std::size_t draws, Random& random) const {
  const std::size_t n = state_->evidence.size();
  std::vector<float> rows(draws * n);
  std::size_t done = 0;
  double share = 0;
  // Draws are shared out over the hypotheses in proportion to their weights, as evenly as whole numbers go.
  const double offset = random.uniform();
  Solved solved;
  for (const Hypothesis& hypothesis : state_->hypotheses) {
    share += hypothesis.weight;
    const bool last = &hypothesis == &state_->hypotheses.back();
    const double up_to = std::floor(share * static_cast<double>(draws) + offset);
    const std::size_t until = last ? draws : std::min(draws, static_cast<std::size_t>(up_to));
    if (until <= done) continue;
    for (const Piece& piece : state_->pieces) {
      solved.solve(piece, state_->evidence, hypothesis.hub, hypothesis.part);
      std::vector<double> values(piece.block.size());
      for (std::size_t row = done; row < until; ++row) {
        random.fill_normal(values);
        for (std::size_t i = 0; i < values.size(); ++i) values[i] += solved.half_mean()[i];
        solved.put(values);
        for (std::size_t i = 0; i < values.size(); ++i) rows[row * n + piece.block[i]] = static_cast<float>(values[i]);
      }
    }
    done = until;
  }
  return rows;
}

}  // namespace brakewright::refit
