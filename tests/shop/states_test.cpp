#include "shop/states.hpp"

#include <gtest/gtest.h>

namespace brakewright::shop {
namespace {

Uuid id(std::uint8_t number) {
  Uuid made;
  made.bytes[15] = number;
  return made;
}

Reading reading(std::uint8_t number, std::optional<std::uint8_t> supersedes = {}) {
  Reading made;
  made.id = id(number);
  if (supersedes) made.supersedes_id = id(*supersedes);
  return made;
}

Reading taken_back(Reading made) {
  made.withdrawn_at = UtcTime(std::chrono::milliseconds(1));
  return made;
}

using enum ReadingState;
using States = std::vector<ReadingState>;

TEST(States, TheLastOfALineCounts) {
  EXPECT_EQ(states_of({reading(1), reading(2, 1), reading(3, 2)}), (States{superseded, superseded, current}));
}

TEST(States, TakingBackTheLastBringsBackTheOneBefore) {
  EXPECT_EQ(states_of({reading(1), reading(2, 1), taken_back(reading(3, 2))}),
            (States{superseded, current, withdrawn}));
  EXPECT_EQ(states_of({reading(1), taken_back(reading(2, 1))}), (States{current, withdrawn}));
}

TEST(States, TakingBackTheMiddleOfALineDoesNotBringBackItsBeginning) {
  EXPECT_EQ(states_of({reading(1), taken_back(reading(2, 1)), reading(3, 2)}),
            (States{superseded, withdrawn, current}));
}

TEST(States, TwoTabletsThatSupersedeTheSameReadingBothCount) {
  EXPECT_EQ(states_of({reading(1), reading(2, 1), reading(3, 1)}), (States{superseded, current, current}));
  EXPECT_EQ(states_of({reading(1), taken_back(reading(2, 1)), reading(3, 1)}),
            (States{superseded, withdrawn, current}));
}

TEST(States, OrderDoesNotMatterAndAnUnknownOneIsNoMatter) {
  EXPECT_EQ(states_of({reading(3, 2), reading(2, 1), reading(1)}), (States{current, superseded, superseded}));
  EXPECT_EQ(states_of({reading(2, 9)}), (States{current}));
}

TEST(States, AReadingThatNamesItselfOrARingEndsAndCounts) {
  EXPECT_EQ(states_of({reading(1, 2), reading(2, 1)}).size(), 2U);
}

TEST(States, NoneOfNone) { EXPECT_TRUE(states_of({}).empty()); }

}  // namespace
}  // namespace brakewright::shop
