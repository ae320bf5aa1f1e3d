#include "core/uncertainty/random.hpp"

#include <boost/random/chi_squared_distribution.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_int_distribution.hpp>

namespace brakewright {
namespace {

// Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014: the mix of splitmix64.
constexpr std::uint64_t mixed(std::uint64_t bits) {
  bits += 0x9E3779B97F4A7C15U;
  bits = (bits ^ (bits >> 30)) * 0xBF58476D1CE4E5B9U;
  bits = (bits ^ (bits >> 27)) * 0x94D049BB133111EBU;
  return bits ^ (bits >> 31);
}

}  // namespace

struct Random::State {
  boost::random::mt19937_64 engine;
  boost::random::normal_distribution<double> normal;
};

Random::Random(std::uint64_t seed, std::uint64_t stream) : state_(std::make_unique<State>()) {
  state_->engine.seed(mixed(mixed(seed) + stream));
}

Random::~Random() = default;
Random::Random(Random&&) noexcept = default;
Random& Random::operator=(Random&&) noexcept = default;

double Random::uniform() { return static_cast<double>(state_->engine() >> 11) * 0x1p-53; }

double Random::normal() { return state_->normal(state_->engine); }

double Random::chi_squared(double dof) { return boost::random::chi_squared_distribution<double>(dof)(state_->engine); }

std::uint64_t Random::below(std::uint64_t count) {
  return boost::random::uniform_int_distribution<std::uint64_t>(0, count - 1)(state_->engine);
}

void Random::fill_normal(std::span<double> draws) {
  for (double& draw : draws) draw = state_->normal(state_->engine);
}

}  // namespace brakewright
