#include "core/uncertainty/monte_carlo.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright {
namespace {

/// Mean 0, standard deviation 1.
double standard_draw(Random& random, Distribution distribution) {
  switch (distribution) {
    case Distribution::normal:
      return random.normal();
    case Distribution::rectangular:
      return std::numbers::sqrt3 * (2.0 * random.uniform() - 1.0);
    case Distribution::triangular: {
      const double first = random.uniform();
      return std::sqrt(6.0) * (first - random.uniform());
    }
    case Distribution::u_shaped:
      break;
  }
  return std::numbers::sqrt2 * std::cos(2.0 * std::numbers::pi * random.uniform());
}

void check_inputs(std::span<const Quantity> inputs) {
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    if (!std::isfinite(inputs[i].mean) || !std::isfinite(inputs[i].u) || inputs[i].u < 0.0) {
      throw InputError("out_of_range", "inputs[" + std::to_string(i) + "]",
                       "a finite mean and a finite u of 0 or more are needed");
    }
  }
}

}  // namespace

Propagated summarise(std::vector<double> draws, double confidence) {
  if (draws.size() < 100) throw InputError("out_of_range", "draws", "at least 100 draws are needed");
  if (!(confidence > 0.0 && confidence < 1.0)) {
    throw InputError("out_of_range", "confidence", "must lie between 0 and 1, ends excluded");
  }
  if (!std::all_of(draws.begin(), draws.end(), [](double draw) { return std::isfinite(draw); })) {
    throw InputError("not_finite", "model", "the model must answer a finite number for every draw");
  }
  std::sort(draws.begin(), draws.end());
  const double count = static_cast<double>(draws.size());
  const double origin = draws[draws.size() / 2];
  double sum = 0.0;
  for (const double draw : draws) sum += draw - origin;
  Propagated answer{.mean = origin + sum / count};
  double squares = 0.0;
  for (const double draw : draws) squares += (draw - answer.mean) * (draw - answer.mean);
  answer.u = std::sqrt(squares / (count - 1.0));

  const auto held = std::min(static_cast<std::size_t>(std::lround(confidence * count)), draws.size() - 1);
  const std::size_t spare = draws.size() - 1 - held;
  answer.symmetric = {draws[(spare + 1) / 2], draws[(spare + 1) / 2 + held]};
  std::size_t best = 0;
  for (std::size_t start = 1; start <= spare; ++start) {
    if (draws[start + held] - draws[start] < draws[best + held] - draws[best]) best = start;
  }
  answer.shortest = {draws[best], draws[best + held]};
  return answer;
}

Propagated propagate(std::span<const Quantity> inputs, const std::function<double(std::span<const double>)>& model,
                     std::size_t draws, double confidence, std::uint64_t seed) {
  check_inputs(inputs);
  Random random(seed);
  std::vector<double> outcomes(draws);
  std::vector<double> drawn(inputs.size());
  for (double& outcome : outcomes) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      drawn[i] = inputs[i].mean + inputs[i].u * standard_draw(random, inputs[i].distribution);
    }
    outcome = model(drawn);
  }
  return summarise(std::move(outcomes), confidence);
}

}  // namespace brakewright
