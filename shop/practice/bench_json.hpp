#pragma once

#include "core/practice/run.hpp"
#include "shop/json.hpp"

/// What the simulated bench tells, as JSON with the names of core/practice.
namespace brakewright::shop {

Json bench_to_json(const practice::Bench& bench);
Json outcome_to_json(const practice::Outcome& outcome);
Json ended_to_json(const practice::Ended& ended);
Json view_to_json(const practice::View& view);
Json exercise_to_json(const practice::Exercise& exercise);
Json mark_to_json(const practice::Mark& mark);
Json picture_to_json(const practice::Picture& picture);

}  // namespace brakewright::shop
