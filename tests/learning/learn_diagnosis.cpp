// Writes core/diagnosis/learnt_figures.cpp: draws parts of the simulated bench, each spoilt by one cause, and counts
// which signs they show. The command stands in what it writes.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "core/diagnosis/learnt.hpp"
#include "core/diagnosis/learnt_figures.hpp"
#include "core/diagnosis/spoilt_part.hpp"

namespace {

using namespace brakewright::diagnosis;

std::vector<Lesson> lessons_of(std::uint64_t seed, std::uint64_t parts) {
  std::vector<Lesson> lessons;
  for (std::uint64_t number = 0; number < parts; ++number) {
    const SpoiltPart part = spoilt_part(seed, number);
    lessons.push_back({.cause = part.cause, .size = part.size, .signs = part.signs});
  }
  return lessons;
}

/// Lines of numbers.
class Rows {
 public:
  void add(double chance) {
    column_ += std::printf("%ld,", std::lround(-kLearntPerUnit * std::log(chance)));
    if (column_ > 112) end();
  }
  void end() {
    std::printf("\n");
    column_ = 0;
  }

 private:
  int column_ = 0;
};

void write(const Learnt& figures) {
  const auto seed = static_cast<unsigned long long>(figures.seed);
  const auto parts = static_cast<long long>(figures.parts);
  std::printf(
      "// Written by `learn_diagnosis %llu %lld > core/diagnosis/learnt_figures.cpp` (target learn_diagnosis); not by "
      "hand.\n#include \"core/diagnosis/learnt_figures.hpp\"\n\nnamespace brakewright::diagnosis {\n\n"
      "const std::int64_t kLearntParts = %lld;\nconst std::uint64_t kLearntSeed = %llu;\n\n// clang-format off\n"
      "const std::uint16_t kLearntShares[kLearntShareCount] = {\n",
      seed, parts, parts, seed);
  Rows shares, chances;
  for (const double share : figures.share) shares.add(share);
  std::printf("};\n\nconst std::uint16_t kLearntChances[kLearntChanceCount] = {\n");
  for (std::size_t s = 0; s < kSigns; ++s) {
    for (const auto& row : figures.chance[s]) {
      for (int level = 0; level < about(static_cast<Sign>(s)).levels; ++level) {
        chances.add(row[static_cast<std::size_t>(level)]);
      }
    }
    chances.end();
  }
  std::printf("};\n// clang-format on\n\n}  // namespace brakewright::diagnosis\n");
}

}  // namespace

/// @param argv  seed and number of parts; one part in four sets how far the counts may be believed
int main(int argc, char** argv) {
  if (argc != 3) {
    std::fprintf(stderr, "learn_diagnosis SEED PARTS\n");
    return 2;
  }
  const std::uint64_t seed = std::strtoull(argv[1], nullptr, 10), parts = std::strtoull(argv[2], nullptr, 10);
  write(learn(lessons_of(seed, parts), parts / 4, seed));
  return 0;
}
